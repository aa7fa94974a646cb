#pragma once
// Where a plan.json departs from its published schema. Internal to the room.

#include <nlohmann/json.hpp>

#include "aftercut/core/result.hpp"

namespace aftercut::report::sheets {

/// Every place, but no more than the first forty.
Issues departures_of(const nlohmann::json& plan);

}  // namespace aftercut::report::sheets
