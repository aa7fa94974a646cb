#pragma once
// What has to be signed, sampled, ordered or done by when, out of the farm's own data and the plan.

#include <vector>

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

/// By day, then by what; no day before the plan's. Needs the plan's fall-back tests.
std::vector<plan::DateToKeep> dates_to_keep(const dispatch::Table& table, const plan::Plan& plan);

}  // namespace aftercut::scenario
