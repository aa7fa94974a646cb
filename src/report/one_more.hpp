#pragma once
// What one more hour or unit would save. Internal to the room.

#include <string>

#include "parts.hpp"

namespace aftercut::report {

/// plan.json's `one_more_worth`; null where it was not worked out.
json one_more_json(const farm::Farm& farm, const plan::Plan& plan);
/// Money an hour of a machine or person, 0 where it cannot be told from nothing; null: not worked out.
json hour_worth_json(const plan::Plan& plan, const plan::ResourceUse& resource);
/// The few that are worth most, for the terminal.
std::string one_more_text(const farm::Farm& farm, const plan::Plan& plan);

}  // namespace aftercut::report
