#pragma once
// Bales that the plan tells of a field and method: their number by the replayed years, loads and twine.

#include <vector>

#include "aftercut/plan/plan.hpp"
#include "facts.hpp"
#include "findings.hpp"

namespace aftercut::audit {

/// Bales are sold at 12 % moisture. Source: RulesOfWork (assumed)
inline constexpr double dry_share_as_sold = 0.88;

/// Bales of straw taken off, oven-dry: at the farm's mass of a bale as sold, the last one begun counted
/// whole.
double bales_from(const farm::Farm& farm, double dry_kg);

/// A method that bales tells its bales, no other does; loads and twine are those of its middle count.
Findings check_told_bales(const Place& place, const farm::Farm& farm, const method::Recipe& recipe,
                          const plan::MethodOutcome& said);
/// Quantiles of the bales of the shown years, for the chosen method.
Findings check_bales(const Place& place, const farm::Farm& farm, const farm::Field& field,
                     const plan::BaleCount& said, const std::vector<plan::FieldRun>& shown);

}  // namespace aftercut::audit
