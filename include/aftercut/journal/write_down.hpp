#pragma once
// The one way into the journal: what is written down is held against the farm and against all that stands
// already, as it would hold on the day after, so that nothing gets in that reading the farm later refuses.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/journal/log.hpp"

namespace aftercut::journal {

/// The time of recording in UTC, and the day that it is here.
struct Now {
  std::string time;
  Date today;
};

/// Where and when something is written down.
struct AtDesk {
  const farm::Problem* problem = nullptr;  ///< the farm without its journal
  Date today;
};

/// What the farm and the journal have to say against new entries; one whose id is there already is not looked
/// at again. Faults that stand without them are not theirs: a correction that mends one goes in. Missing
/// weather is nobody's fault here; planning asks for it.
Issues faults_of(const Log& log, const std::vector<Entry>& entries, const AtDesk& at);

/// The entries as they stand, once they are on the disk, under one lock from the look to the last line; or
/// what is wrong, and then nothing is written.
Result<std::vector<Entry>> write_down(const std::filesystem::path& folder, const std::vector<Entry>& entries,
                                      const AtDesk& at);

}  // namespace aftercut::journal
