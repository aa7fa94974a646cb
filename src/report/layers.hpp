#pragma once
// Field shapes with the plan's columns, and shapes for the page. Internal to the room.

#include "aftercut/geo/layer.hpp"
#include "parts.hpp"

namespace aftercut::report {

/// One feature for each field that has an outline; columns carry their unit.
geo::LayerToWrite fields_layer(const farm::Problem& problem, const plan::PlannedYears& planned);
/// GeoJSON of the fields (id, label point), places (name, kind), stack places and setbacks of burn rows for
/// the page, 7 decimals; links of fields by water.
json page_shapes(const farm::Farm& farm);

}  // namespace aftercut::report
