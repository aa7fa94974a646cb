#pragma once
// A small farm whose fields are locked to five different methods, and its plan as the planner makes it.

#include <set>
#include <string>

#include "aftercut/audit/audit.hpp"
#include "small_farm.hpp"

namespace aftercut::test {

/// 1 bale, 2 bale and disk, 3 chop and disk, 4 (fallow, leased for water) flood and roll, 5 burn.
const farm::Problem& locked_problem();
/// Made once; tests change copies of it.
const plan::PlannedYears& sound_plan();

/// Names of the rules that the audit finds broken.
std::set<std::string> broken_rules(const farm::Problem& problem, const plan::PlannedYears& planned);
/// Every violation as text, for a failing test.
std::string listed(const audit::Audit& audit);

int operation_named(const farm::Farm& farm, const std::string& id);
/// The first stretch of this operation in the run that satisfies `field` (or any field: -1). Throws when
/// there is none.
plan::Work& work_of(plan::YearRun& run, const farm::Farm& farm, const std::string& operation, int field = -1);
/// Index of a run that is not the schedule's year and holds such a stretch.
std::size_t other_year_with(const plan::PlannedYears& planned, const farm::Farm& farm,
                            const std::string& operation);

}  // namespace aftercut::test
