#pragma once
// The journal's entries put into a farm: what was cut, said and taken away changes the farm's values; what
// was done and seen becomes the season so far.

#include <string>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/journal/entry.hpp"

namespace aftercut::journal {

/// Days that a machine is taken to stay away when nobody has said how long. Source: StaysDown (assumed)
inline constexpr int stays_down_days = 7;
/// Days that a field called too wet is left alone, its first one included.
inline constexpr int too_wet_days = 7;

/// `standing`: as standing_on() gives them for the problem's as-of day. Issues name `file` and the entry:
/// names that the farm does not have, work before the harvest, weather that is missing. No entries: the
/// problem as it was.
Result<farm::Problem> put_in(farm::Problem problem, const std::vector<Entry>& standing,
                             const std::string& file);

/// A fault of an entry that stands.
struct EntryFault {
  int seq = 0;
  Issue issue;
  friend bool operator==(const EntryFault&, const EntryFault&) = default;
};
/// What put_in() has to say against the entries themselves; weather that is missing is left aside.
std::vector<EntryFault> faults_in(farm::Problem problem, const std::vector<Entry>& standing,
                                  const std::string& file);

}  // namespace aftercut::journal
