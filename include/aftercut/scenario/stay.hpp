#pragma once
// Staying with the plan that stands: of a decision found anew only those changes that gain enough.

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/again.hpp"

namespace aftercut::scenario {

struct StayInput {
  const dispatch::Table* table = nullptr;
  const plan::Decision* stood = nullptr;  ///< possible under the table
  const plan::Decision* found = nullptr;
  std::vector<std::size_t> years;  ///< that judge
  int threads = 1;
};

struct Stayed {
  plan::Decision decision;
  std::vector<plan::Move> moves;
  plan::Move autumn_order, spring_order;
};

/// Changes are taken back one after the other, the one that gains least for its hectares first, while it
/// gains less than the farm's `target.change_gain` a hectare and takes no field from its wanted chance. An
/// order of fields counts as one change on a field of mean size. The same arguments give the same answer.
Stayed stay(const StayInput& input);

}  // namespace aftercut::scenario
