#pragma once
// Vector files: GeoJSON, GeoPackage, Shapefile, KML, FlatGeobuf and whatever else GDAL reads, in any
// reference system.

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/geo/shape.hpp"

namespace aftercut::geo {

struct Feature {
  int row = 0;                                ///< 1-based place in the file
  std::map<std::string, std::string> values;  ///< column -> text; an empty cell is absent
  Shape shape;                                ///< in WGS 84, axis order longitude, latitude
};

struct Layer {
  std::string file;              ///< as named in issues
  std::string reference_system;  ///< as the file states it, e.g. "EPSG:32610"
  std::vector<std::string> columns;
  std::vector<Feature> features;
};

/// Reads one layer (the first with a geometry unless `name` is given) and brings it to WGS 84.
/// Issues: no such file, not a vector file, truncated, no features, no reference system, coordinates outside
/// the reference system's sense, not-a-number coordinates, text that is not UTF-8.
Result<Layer> read_layer(const std::filesystem::path& file, const std::optional<std::string>& name = {});

/// A shape with its faults mended, and what was done.
struct Repaired {
  Shape shape;
  std::optional<std::string> what;  ///< e.g. "self-crossing boundary near -122.01, 39.20; area 20.1 -> 20.0
                                    ///< ha"; nothing: it was sound
};

/// Mends invalid polygons (GEOS MakeValid) and drops what is left of lines and points.
Repaired repair(const Shape& shape);

struct Overlap {
  std::size_t a = 0, b = 0;  ///< indices, a < b
  Hectare area;
};

/// Every pair of shapes that share more than `least`, with the shared area.
std::vector<Overlap> overlaps(const std::vector<Shape>& shapes, Hectare least);

/// Layers of one GeoPackage to be written: a name and its features; every feature has the same columns.
struct LayerToWrite {
  std::string name;
  std::vector<std::pair<std::string, char>>
      columns;  ///< name and kind: 't' text, 'd' number, 'i' whole number
  std::vector<Feature> features;
};

/// Writes a GeoPackage beside `file` and moves it into place.
Result<std::filesystem::path> write_geopackage(const std::filesystem::path& file,
                                               const std::vector<LayerToWrite>& layers);

/// Writes one layer as GeoJSON (RFC 7946), beside and then moved into place.
Result<std::filesystem::path> write_geojson(const std::filesystem::path& file, const LayerToWrite& layer);

}  // namespace aftercut::geo
