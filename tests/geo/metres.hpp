#pragma once
// Shapes drawn in metres east and north of one corner of the world, near enough for a shape.

#include <vector>

#include "aftercut/geo/shape.hpp"

namespace aftercut::test {

inline constexpr geo::Point metres_corner{-122.0, 39.2};

inline geo::Point at_metres(double x, double y) {
  constexpr double east = 86.4e3, north = 111.0e3;  // metres a degree there
  return {metres_corner.x + x / east, metres_corner.y + y / north};
}

inline geo::Path path_in_metres(const std::vector<geo::Point>& metres) {
  geo::Path out;
  for (const geo::Point& p : metres) out.push_back(at_metres(p.x, p.y));
  return out;
}

inline geo::Shape field_in_metres(const std::vector<geo::Point>& metres) {
  return {{{path_in_metres(metres), {}}}, {}, {}};
}

}  // namespace aftercut::test
