#pragma once
// A stack plan: fields to stack places by the shortest way with room, distances and sizes looked at.

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/stacks.hpp"

namespace aftercut::scenario {

/// [field] bales if all loose straw were raked and baled: one number for all years.
std::vector<plan::Spread> bales_if_all_baled(const farm::Farm& farm);
/// [field] bales of a plan over the years that its chances are of.
std::vector<plan::Spread> bales_of_plan(const farm::Farm& farm, const plan::PlannedYears& planned);

/// [field][stack place] by the farm's roads where they are drawn, else straight distance from the middle of
/// the field times the detour factor.
std::vector<std::vector<farm::StackWay>> ways_to_stacks(const farm::Farm& farm);

plan::StackPlan plan_stacks(const farm::Farm& farm, std::vector<plan::Spread> bales, bool all_baled);

}  // namespace aftercut::scenario
