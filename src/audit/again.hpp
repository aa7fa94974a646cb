#pragma once
// Against the plan that stood: its years lived again, and what plan.json says of it and of the days that
// move.

#include "facts.hpp"
#include "findings.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

/// plan.json's `again`; none where no plan stood.
std::optional<plan::Again> read_again(JsonIn& in, const Json& root);

Findings check_again(const Facts& facts, const plan::PlannedYears& planned);
/// Which days move, by how much and why, from both plans' years as they are stated.
Findings check_days_moved(const farm::Farm& farm, const plan::PlannedYears& planned);

}  // namespace aftercut::audit
