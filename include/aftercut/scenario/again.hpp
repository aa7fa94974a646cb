#pragma once
// A plan made again from the one that stands: a search that goes on from it, and only the changes worth
// making.

#include "aftercut/plan/again.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/scenario/base_plan.hpp"

namespace aftercut::scenario {

struct FoundAgain {
  planner::Found found;
  plan::Again again;                ///< but for its days
  std::vector<plan::YearRun> runs;  ///< of the plan that stood, every year
};

/// `input`: what the search would be given without a plan that stands; `options.stands` is set.
FoundAgain found_again(const planner::SearchInput& input, const SearchOptions& options);

}  // namespace aftercut::scenario
