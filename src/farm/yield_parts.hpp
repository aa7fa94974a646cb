#pragma once
// A yield map's way from its files to fields' patterns.

#include <array>

#include "aftercut/farm/yield_map.hpp"
#include "aftercut/geo/gridding.hpp"
#include "parts.hpp"

namespace aftercut::farm {

/// Source: YieldMapRules (assumed), every one a setting of farm.json.
struct MapSettings {
  double cell_m = 20.0;
  double reach_m = 20.0;  ///< a cell takes the mean of the points so near to its middle
  double most_yield_kg_per_ha = 20000.0;
  double moisture = 0.14;  ///< of mapped grain where the map tells none, wet basis
  double driest = 0.06, wettest = 0.35;
  double outlier_mads = 5.0;   ///< median absolute deviations from the field's median
  double outlier_share = 0.5;  ///< of the median: what is nearer is no outlier
  int fewest_points = 30;      ///< a field
  double heavy_over_mean = 1.25;
  std::optional<double> heavy_kg_per_ha;  ///< instead: straw, oven-dry
  Hectare smallest_zone{0.2};
};
/// Share of a field's cells that need a point within reach, else its map is left aside. Source: YieldMapRules
/// (assumed)
inline constexpr double least_covered_share = 0.5;

MapSettings read_map_settings(const Object& part);

/// One mapped place; grain as delivered.
struct MapPoint {
  geo::Point at;
  std::optional<double> kg_per_ha;  ///< nothing: an empty cell
  std::optional<double> moisture;   ///< share, wet basis
};

struct MapPoints {
  std::vector<MapPoint> points;
  std::vector<Farm::Input> inputs;
};
/// The points of the map's files (of a raster: the middles of its cells); empty when there are issues.
MapPoints read_map_points(const Object& part, const Folder& folder);

/// Why a point is left out, in the order of the rules; a point falls to the first that holds.
enum class Drop { empty, outside, moisture, impossible, same_place, far_from_median };
inline constexpr std::size_t drops = 6;

/// Dry grain of the points that were kept, by field, in an order that does not hang on the files'.
struct Sifted {
  std::vector<std::vector<geo::Sample>> kept;  ///< [field], value oven-dry kg/ha
  std::array<std::size_t, drops> dropped{};
  std::size_t all = 0;
};
Sifted sift(const std::vector<MapPoint>& points, const std::vector<geo::Shape>& fields,
            const MapSettings& settings);

/// Dry grain over one field.
struct MappedField {
  geo::Frame frame;
  std::vector<geo::CellShare> cells;
  std::vector<double> dry_kg_per_ha;  ///< [cell of cells]; a cell out of reach has the mean
  KgPerHa mean;                       ///< by area, over the cells within reach
  double out_of_reach = 0.0;          ///< share of the area
  std::size_t points = 0;
};
struct MappedGrain {
  MapSettings settings;
  std::vector<std::optional<MappedField>> fields;  ///< [field]
  std::vector<std::string> notes;
  std::vector<Farm::Input> inputs;
};
/// farm.json's yield_map; without it no field is mapped.
MappedGrain read_mapped_grain(const Object& top, const Folder& folder, const std::vector<ReadField>& fields);

/// Each field's mean dry grain by the map.
std::vector<std::optional<KgPerHa>> means_of(const MappedGrain& grain);

/// The patterns, scaled to the straw that each field has by its own figure. `before`: as read, in the same
/// order.
YieldMap straw_map(const MappedGrain& grain, const std::vector<ReadField>& before,
                   const std::vector<Field>& fields);

}  // namespace aftercut::farm
