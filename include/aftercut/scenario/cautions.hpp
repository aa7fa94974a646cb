#pragma once
// The usual cautions, one table: what, why, where it comes from, and when a plan makes it relevant.

#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

/// The rows that the chosen methods make relevant, each with the fields it touches.
std::vector<plan::Caution> cautions(const farm::Farm& farm, const plan::Decision& decision);

}  // namespace aftercut::scenario
