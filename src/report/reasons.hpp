#pragma once
// The chosen method against the next best as JSON. Internal to the room.

#include "parts.hpp"

namespace aftercut::report {

/// Adds next_best, toss_up_with, toss_up_because and wait_a_week_cost to a field's `chosen`.
void add_reasons(json& out, const plan::Chosen& chosen, const farm::Farm& farm, const farm::Field& field);

}  // namespace aftercut::report
