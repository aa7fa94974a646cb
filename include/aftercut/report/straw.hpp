#pragma once
// How much straw lies on each field and how it varies: a table, a raster and layers for a map.

#include <filesystem>
#include <string>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/farm.hpp"

namespace aftercut::report {

/// A table that fits 100 columns, the field with the most straw by area first; then what was done with the
/// yield map.
std::string straw_text(const farm::Farm& farm);

/// Writes straw.geojson (fields with their figures) and, with a yield map, straw.tif (kg/ha on the map's
/// cells) and heavy-straw.geojson (ground with much straw); all or, on an issue, none of it is moved into
/// place.
Result<std::filesystem::path> write_straw(const farm::Farm& farm, const std::filesystem::path& out);

}  // namespace aftercut::report
