#pragma once
// The bound as it is written beside a plan: its multipliers, and what every method costs under them.

#include <vector>

#include "aftercut/plan/bound_proof.hpp"
#include "aftercut/planner/bound.hpp"

namespace aftercut::planner {

/// Of these prices. `planned`: [field] the method of the plan that stands beside it, none for nothing; its
/// costs are told year by year. The same whatever the threads.
plan::BoundProof proof_of(const BoundModel& model, const std::vector<DayPrices>& prices,
                          const std::vector<int>& planned, int rounds, int threads);

/// [year] the prices of a proof. Its years, resources and days are those of the model.
std::vector<DayPrices> prices_of(const BoundModel& model, const plan::BoundProof& proof);

}  // namespace aftercut::planner
