#pragma once
// Room scenario, lead header. Purpose: a whole plan and what would change it. Takes a checked problem; gives
// the base plan: the decision that the search found, played in every year, with every method's outcome where
// that one field is switched, chances, reasons, cautions and troubles. Leaves out physics, files and the
// audit.

#include <cstdint>
#include <functional>
#include <optional>

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

struct SearchOptions {
  std::uint64_t seed = 1;
  int threads = 1;
  int evaluations = 6000;                ///< changes that the search judges
  std::optional<int> bound_rounds = {};  ///< of prices that raise the lower bound; none: no bound
  int one_more_plans = 0;  ///< over which the worth of one more is a mean; 0: it is not worked out
  /// 0 to 1; may be empty. What it throws ends the work and reaches the caller.
  std::function<void(double)> progress;
  std::optional<plan::Decision> decision = {};  ///< played as it is, without a search
  std::optional<plan::Decision> start = {};     ///< the search goes on from it; none: from what is cheapest
  /// The decision of the plan that stands: the search goes on from it, and only changes that gain the farm's
  /// `target.change_gain` are made. The search may still be told to `start` elsewhere.
  std::optional<plan::Decision> stands = {};
};

/// Searches, then plays the decision in every year and works out each method's outcome with that one field
/// switched.
plan::PlannedYears make_plan(const farm::Problem& problem, const SearchOptions& options);

}  // namespace aftercut::scenario
