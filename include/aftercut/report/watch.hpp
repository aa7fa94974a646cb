#pragma once
// What `aftercut watch` says: what needs a decision, what changed, the storm list; and the picture of the
// chances through the season.

#include <string>
#include <vector>

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"
#include "aftercut/plan/watch.hpp"

namespace aftercut::report {

std::string watch_text(const farm::Problem& problem, const plan::Ahead& ahead);
/// {"day", "calls": [...], "changes": [...], "storm": {...} | null, "fields": [...]}.
std::string watch_json(const farm::Problem& problem, const plan::Ahead& ahead);
/// A small line for each field: its chance on each look's day, the chance wanted, today's in figures. Nothing
/// hangs on colour.
std::string readiness_svg(const farm::Farm& farm, const std::vector<plan::Look>& looks);

}  // namespace aftercut::report
