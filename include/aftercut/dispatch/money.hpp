#pragma once
// What work, water and outcomes cost, item by item, in cents (docs/rules-of-work.md, "Money").

#include <optional>

#include "aftercut/dispatch/day_pool.hpp"
#include "aftercut/plan/decision.hpp"

namespace aftercut::dispatch {

/// What an hour of a person costs out of pocket.
double wage_paid(const farm::Operator& who);
/// Fuel and lubricant of so many hours.
double fuel_money(const farm::Farm& farm, const Pace& pace, double hours);
/// What an outfit takes for an area and hours, straw and its coming aside.
double hire_money(const machinery::Hire& hire, double area_ha, double hours);
/// One stretch: fuel, wages, hire by area and hour, repair, ownership, own labour; burn fee where it burns.
plan::CostParts stretch_cost(const Table& table, const Stretch& stretch, int operation);
/// Straw taken off an area: hire by the tonne and the bale, twine, income.
plan::CostParts baled_cost(const Table& table, int implement, double dry_kg, double area_ha);
/// A hired outfit's coming, once a year.
plan::CostParts call_out_cost(const farm::Farm& farm, int implement);
plan::CostParts water_cost(const Table& table, double m3, bool first, double area_ha);
/// Grain lost by a seedbed that is ready on this day, by the field's late curve [kg/ha].
double late_loss_kg_per_ha(const farm::Farm& farm, const farm::Field& field, int ready_day);
/// What a field costs that is ready on this day, after its planting date: by the price of a late day, or by
/// its late curve; nothing where lateness has no price (docs/risk.md).
std::int64_t late_cents(const farm::Farm& farm, const farm::Field& field, int ready_day);
/// What a lease pays for a field on which water stood on so many of its mornings; nothing unless on all.
std::optional<plan::CostParts> lease_paid(const farm::Farm& farm, const farm::Field& field,
                                          int standing_mornings);
/// Late or unplanted, by the ready day (none: never).
plan::CostParts outcome_cost(const farm::Farm& farm, const farm::Field& field, plan::Status status,
                             int ready_day);
plan::Status status_of(const farm::Farm& farm, const farm::Field& field, int ready_day);

}  // namespace aftercut::dispatch
