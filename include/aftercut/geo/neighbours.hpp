#pragma once
// What lies around a field, by the eight winds.

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "aftercut/geo/shape.hpp"

namespace aftercut::geo {

inline constexpr std::array<const char*, 8> sector_names{"N", "NE", "E", "SE", "S", "SW", "W", "NW"};

struct Neighbour {
  std::size_t place = 0;     ///< index into the places asked about
  Metre distance;            ///< from the field's boundary; 0 where they touch
  double bearing_deg = 0.0;  ///< from the field's middle to the place's nearest point, clockwise from north
};
/// [sector] each 45 degrees wide, seen from the field's middle; nothing within 100 km in that direction.
using Around = std::array<std::optional<Neighbour>, sector_names.size()>;

/// The nearest place in each sector. A place that lies in several sectors (a road) counts in each by its part
/// there. `field` has polygons.
Around nearest_by_sector(const Shape& field, const std::vector<Shape>& places);

}  // namespace aftercut::geo
