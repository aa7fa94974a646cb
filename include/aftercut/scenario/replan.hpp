#pragma once
// Planning again after changes of the farm: at once by a short search from the plan that stands, so that a
// grower sees what a change does; the whole plan (make_plan) may follow.

#include <functional>

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/replanned.hpp"

namespace aftercut::scenario {

struct ReplanInput {
  const farm::Problem* before = nullptr;
  const plan::Decision* decision = nullptr;  ///< that stands, of `before`
  const farm::Problem* after = nullptr;      ///< with the same fields
  std::uint64_t seed = 1;
  int threads = 1;
  int evaluations = 600;  ///< changes that the search judges
  std::function<void(double)> progress = {};
};

/// Never worse than the plan kept, by what the search counts over its years. The same arguments give the same
/// answer whatever the threads.
plan::Replanned replan(const ReplanInput& input);

/// The same told of a decision that has been found for `after` otherwise: nothing is searched.
plan::Replanned replan_with(const ReplanInput& input, const plan::Decision& found);

}  // namespace aftercut::scenario
