#pragma once
// How sure the fields are against what was wanted, for plan.json and the terminal. Internal to the room.

#include "parts.hpp"

namespace aftercut::report {

/// plan.json's `target`.
json target_json(const farm::Farm& farm, const plan::Plan& plan);
/// How many fields have their wish in which years, and what stands in the way of the others; empty where the
/// chance is only told.
std::string risk_text(const farm::Farm& farm, const plan::Plan& plan);

}  // namespace aftercut::report
