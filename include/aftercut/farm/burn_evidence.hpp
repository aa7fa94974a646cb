#pragma once
// What the burn rules ask of a field, whatever the weather and the authority's call.

#include "aftercut/farm/farm.hpp"

namespace aftercut::farm {

/// The field's facts on a day: area, places around, evidence, people and water, sun, the share of the farm
/// that this burn alone would be. Lay, drying, weather, call and hour of lighting are the caller's.
burn::Facts burn_evidence(const Farm& farm, const Field& field, Date day);

}  // namespace aftercut::farm
