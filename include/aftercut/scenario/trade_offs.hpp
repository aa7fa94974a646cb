#pragma once
// Trade-offs: the farm planned under several weights of readiness, greenhouse gases and straw taken off
// (docs/trade-offs.md).

#include "aftercut/plan/trade_offs.hpp"
#include "aftercut/scenario/base_plan.hpp"

namespace aftercut::scenario {

/// A sweep of each weight by itself, and a few together; the first is none.
std::vector<plan::WeighedPlan> sweep_of_weights();

/// The farm as a search with these weights sees it: other prices of straw, late planting, burning and
/// flooding. `base` tells what each kind of method gives off.
farm::Problem weighed(const farm::Problem& problem, const plan::Weights& weights, const plan::Plan& base);

/// a is at least as good in cost, chance, CO2e and straw baled, and better in one.
bool dominates(const plan::WeighedPlan& a, const plan::WeighedPlan& b);

plan::TradeOffs trade_offs(const farm::Problem& problem, const SearchOptions& options);

}  // namespace aftercut::scenario
