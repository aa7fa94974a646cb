#pragma once
// Every item of cost worked out afresh, in cents: docs/rules-of-work.md, "Money".

#include "facts.hpp"
#include "findings.hpp"

namespace aftercut::audit {

/// Loss on the late curve at a day [kg/ha]: straight lines between nodes, level outside. At least one node.
double loss_on(const std::vector<farm::LateNode>& curve, Date day);

/// One stretch: fuel, wages and own labour, hire by area and hour, repair and ownership, burn fee.
plan::CostParts cost_of_stretch(const Facts& facts, const plan::Work& work, double fuel_l, double area_ha);
/// Straw taken off, oven-dry: hire by the tonne, twine, income.
plan::CostParts cost_of_straw(const farm::Farm& farm, int implement, double dry_kg, double area_ha);
plan::CostParts cost_of_water(const farm::Farm& farm, double m3, bool first_of_year, double area_ha);
plan::CostParts call_out(const farm::Farm& farm, int implement);
plan::CostParts lease_income(const farm::Field& field);
/// A field that is ready after its planting date, by the price of a late day, its late curve or neither,
/// cents.
std::int64_t cost_of_lateness(const farm::Farm& farm, const farm::Field& field, Date ready);
/// Late or unplanted, after the year's outcome.
plan::CostParts cost_of_outcome(const farm::Farm& farm, const farm::Field& field, plan::Status status,
                                int ready_day);
/// What a ready day (or none) means for this field.
plan::Status status_of(const farm::Farm& farm, const farm::Field& field, bool has_method, int ready_day);
/// The thirteen parts beside one another.
Findings compare_costs(const Place& place, const plan::CostParts& found, const plan::CostParts& expected,
                       std::int64_t tolerance);

}  // namespace aftercut::audit
