#pragma once
// What a set of played years comes to for the whole farm.

#include <optional>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/what_if.hpp"

namespace aftercut::scenario {

/// Mean over the runs in whole cents, out of pocket; `full`: ownership and own labour too.
std::int64_t mean_cost(const std::vector<plan::YearRun>& runs, bool full);

/// `chance`: [field] of a ready seedbed by planting.
plan::WholeFarm whole_farm(const farm::Farm& farm, const std::vector<plan::YearRun>& runs,
                           const std::vector<double>& chance);
plan::WholeFarm whole_farm(const farm::Farm& farm, const plan::PlannedYears& planned);

}  // namespace aftercut::scenario
