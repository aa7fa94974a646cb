#pragma once
// Ready days of the shown years one by one, and straw and seedbed through the winter.

#include <cstddef>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

/// The plan with its fields' ready_days and winter, from the runs of the shown years (places in `runs`),
/// which kept their winters; the runs come back without them.
plan::PlannedYears with_winter(plan::PlannedYears planned, const farm::Farm& farm,
                               const std::vector<std::size_t>& shown);

}  // namespace aftercut::scenario
