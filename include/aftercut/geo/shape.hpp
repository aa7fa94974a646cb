#pragma once
// Room geo, lead header. Purpose: where things are. Takes vector files and tables; gives shapes in longitude
// and latitude (WGS 84), areas on the ellipsoid, distances, and plain rows of text. Leaves out what the
// columns mean. Only this room sees GDAL, GEOS and PROJ.

#include <vector>

#include "aftercut/core/quantity.hpp"

namespace aftercut::geo {

/// Degrees, WGS 84: x longitude (east positive), y latitude (north positive).
struct Point {
  double x = 0.0;
  double y = 0.0;
  friend auto operator<=>(const Point&, const Point&) = default;
};
using Path = std::vector<Point>;  ///< a line, or a ring whose last point repeats the first

struct Polygon {
  Path outer;
  std::vector<Path> holes;
  friend bool operator==(const Polygon&, const Polygon&) = default;
};

/// What lies on the ground: polygons, lines and points in one value; a field has polygons only.
struct Shape {
  std::vector<Polygon> polygons;
  std::vector<Path> lines;
  std::vector<Point> points;
  friend bool operator==(const Shape&, const Shape&) = default;
};

/// Area of the polygons less their holes on the WGS 84 ellipsoid [ha], whatever the order of the points.
/// Edges are geodesics. Accuracy about 0.1 m2 for a field. Source: Karney2013 (recalled), by PROJ's
/// geodesic.h.
Hectare geodesic_area(const Shape& shape);

/// Outer boundary and holes together, geodesic length [m].
Metre geodesic_perimeter(const Shape& shape);

/// The shortest distance between two shapes [m]; 0 when they touch. In a local plane: good to 0.2 % within 50
/// km.
Metre distance(const Shape& a, const Shape& b);

/// A point inside the polygons, for a label.
Point label_point(const Shape& shape);

/// A rectangle of this area (long side / short side = `ratio`), its lower left corner at `corner`, sides
/// north and east. Its geodesic area equals `area` to 1e-9.
Shape rectangle(Point corner, Hectare area, double ratio);

}  // namespace aftercut::geo
