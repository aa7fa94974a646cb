#pragma once
// How sure the fields are against what was wanted: read back and worked out again from the replayed years.
// Internal to the room.

#include "aftercut/plan/plan.hpp"
#include "facts.hpp"
#include "findings.hpp"
#include "json_in.hpp"
#include "totals.hpp"

namespace aftercut::audit {

/// The chance wanted of a field.
double wish_of(const farm::Farm& farm, const farm::Field& field);
/// So many years ready of so many are that chance, or more.
bool is_met(double chance, int ready, int years);
plan::RiskTold read_risk(JsonIn& in, const Json& root);
/// Wishes as the farm has them; years in which each field is ready, of those searched and of those shown; the
/// trouble that makes a plan end with exit code 1; the price of a late day; and that what stands in the way
/// fits these and itself. What other plans would bring is not played again.
Findings check_risk(const Facts& facts, const plan::Plan& plan, const Replays& replays);

}  // namespace aftercut::audit
