#pragma once
// When each pass comes: read back and worked out again from the runs. Internal to the room.

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"
#include "findings.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

std::vector<plan::Job> read_jobs(JsonIn& in, const Json& field, const std::string& place);
/// Every pass with work in some year is told, and no other; its years and days are those of the runs; by the
/// middle first day; and the last day of the forecast is the forecast's.
Findings check_jobs(const farm::Problem& problem, const plan::PlannedYears& planned);

}  // namespace aftercut::audit
