#pragma once
// A season looked back on: planned against done, figures that were off, and what they could be next year.

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"
#include "aftercut/plan/season_review.hpp"

namespace aftercut::review {

/// Entries with hours that a new rate asks for at least, and the difference that it has to make. Source:
/// NewRates (assumed)
inline constexpr int least_rate_entries = 3;
inline constexpr double least_rate_difference = 0.05;
inline constexpr double rate_standard_errors = 1.645;

struct ReviewInput {
  const farm::Problem* expected = nullptr;      ///< the farm as the first plan knew it, on that plan's day
  const plan::PlannedYears* planned = nullptr;  ///< the first plan
  const farm::Problem* now = nullptr;           ///< with the same fields, on the day of the review
  std::uint64_t seed = 0;
  int threads = 1;
};
plan::SeasonReview season_review(const ReviewInput& input);

}  // namespace aftercut::review
