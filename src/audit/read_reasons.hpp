#pragma once
// The next best method, toss-up and waiting cost out of plan.json. Internal to the room.

#include "aftercut/plan/plan.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

/// Adds to `chosen` what the object of that name says; `area_ha` of its field.
void read_reasons(JsonIn& in, const Json& object, const std::string& place, double area_ha,
                  plan::Chosen& chosen);

}  // namespace aftercut::audit
