#pragma once
// Money by calendar month, out of the bills of every year's run.

#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

/// Mean over all years of each part in each month, in whole cents that add up to the plan's cost: cells are
/// rounded down, and the cents left over go to the largest remainders. p10 and p90 of the month's sum over
/// the shown years. Needs runs with their bills.
std::vector<plan::MonthCash> cash_by_month(const farm::Farm& farm, const plan::PlannedYears& planned);

}  // namespace aftercut::scenario
