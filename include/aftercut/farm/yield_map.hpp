#pragma once
// How the straw varies inside fields, from a map of the yield: rules in docs/yield-maps.md. The weighed grain
// gives a field's mean, the map its pattern.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/quantity.hpp"
#include "aftercut/geo/grid.hpp"
#include "aftercut/geo/shape.hpp"

namespace aftercut::farm {

/// Ground with much straw that hangs together.
struct HeavyZone {
  geo::Shape outline;  ///< within the field
  Hectare area;
  KgPerHa load;  ///< mean
};

/// Spread of oven-dry straw over one field, kg/ha, by area.
struct YieldPattern {
  double p10_kg_per_ha = 0.0, p90_kg_per_ha = 0.0;
  double cv = 0.0;                    ///< standard deviation over mean
  double heavy_from_kg_per_ha = 0.0;  ///< loads above are heavy
  std::vector<HeavyZone> zones;       ///< by place; small specks left out
  double heavy_share = 0.0;           ///< of the field's area in the zones
  double heavy_kg_per_ha = 0.0;       ///< mean load in the zones; 0 without any
  KgPerHa mapped_dry_grain;           ///< the map's own mean
  bool gives_mean = false;            ///< the field has neither a row nor a ticket: the map's mean counts
  std::size_t points = 0;             ///< kept
};

struct YieldMap {
  std::vector<std::optional<YieldPattern>>
      patterns;                    ///< [field]; nothing: no map there. Empty: no map at all
  geo::Grid straw;                 ///< kg/ha of all mapped fields together; no cells without a map
  std::vector<std::string> notes;  ///< what was dropped by which rule, what was done
};

}  // namespace aftercut::farm
