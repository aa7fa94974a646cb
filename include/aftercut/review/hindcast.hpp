#pragma once
// Room review, lead header. Purpose: to look back. Takes a farm's problem with its past winters; gives the
// chances of readiness that would have been said in each, beside what then happened (docs/hindcast.md).
// Leaves out how a decision is found: who asks brings the search.

#include <cstdint>
#include <functional>
#include <vector>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/plan/hindcast.hpp"

namespace aftercut::review {

/// Fewer past winters than this tell nothing. Source: HindcastSearch (assumed)
inline constexpr std::size_t least_winters = 3;

struct HindcastInput {
  const farm::Problem* problem = nullptr;  ///< as past_winters() gives it
  std::vector<int> days;                   ///< season days on which chances are said, rising
  std::uint64_t seed = 0;                  ///< of sampled burn days and hired outfits, and of intervals
  int threads = 1;
  /// A decision that has seen these winters of the table and no other.
  std::function<plan::Decision(const dispatch::Table&, const std::vector<std::size_t>&)> choose;
  std::function<void(double)> progress = {};
};

/// The farm with nothing known but the record's winters: those that the problem plans with, as recorded, from
/// the season's first day on, no forecast.
farm::Problem past_winters(const farm::Problem& problem);

/// Every other winter of the table's played with the weather before `day` taken from `winter`, in their
/// order. What was drawn before `day` (burn calls, whether a hired outfit has come) is `winter`'s too.
std::vector<plan::YearRun> runs_known_until(const dispatch::Table& winters, const plan::Decision& decision,
                                            std::size_t winter, int day);

/// At least `least_winters` winters. The same whatever the threads.
plan::Hindcast hindcast(const HindcastInput& input);

}  // namespace aftercut::review
