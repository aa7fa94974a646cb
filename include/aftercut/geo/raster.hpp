#pragma once
// Rasters: a value on every cell of a grid, read from and written to any place on the Earth.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/geo/grid.hpp"
#include "aftercut/geo/shape.hpp"

namespace aftercut::geo {

/// Reads a raster of one band in any format that GDAL reads; a turned one is laid north up on cells of about
/// the same size. Scale, offset, no-data value and mask of the band are heeded. Issues: no such file, no
/// raster, damaged, not exactly one band, too large, no reference system, no place on the ground, no value at
/// all.
Result<Grid> read_raster(const std::filesystem::path& file);

/// Writes a GeoTIFF (32-bit numbers, no-data -9999, `name` of the band) beside `file` and moves it into
/// place.
Result<std::filesystem::path> write_geotiff(const std::filesystem::path& file, const Grid& grid,
                                            const std::string& name);

/// A value at a place.
struct Sample {
  Point at;  ///< WGS 84
  double value = 0.0;
};

/// The middle of every cell that has a value. Issue: places that do not lead to WGS 84.
Result<std::vector<Sample>> samples_of(const Grid& grid);

/// Points of a named reference system ("EPSG:32610", well-known text) on WGS 84, x east and y north. Issue:
/// the name is not known; coordinates that make no sense in it.
Result<std::vector<Point>> on_wgs84(const std::vector<Point>& points, const std::string& reference_system);

}  // namespace aftercut::geo
