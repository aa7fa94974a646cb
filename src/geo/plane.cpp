#include "plane.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "aftercut/core/require.hpp"

namespace aftercut::geo {
namespace {

constexpr double equatorial_radius_m = 6378137.0;   // Source: WGS84 (recalled)
constexpr double flattening = 1.0 / 298.257223563;  // Source: WGS84 (recalled)

GEOSCoordSequence* sequence_of(const Geos& geos, const Path& path, const ToPlane& to_plane, bool close) {
  Path moved;
  for (const Point& p : path) moved.push_back(to_plane(p));
  if (close && !(moved.front() == moved.back())) moved.push_back(moved.front());
  const auto size = static_cast<unsigned>(moved.size());
  GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(geos.handle(), size, 2);
  for (unsigned i = 0; i < size; ++i)
    GEOSCoordSeq_setXY_r(geos.handle(), sequence, i, moved[i].x, moved[i].y);
  return sequence;
}

GEOSGeometry* ring_of(const Geos& geos, const Path& ring, const ToPlane& to_plane) {
  return GEOSGeom_createLinearRing_r(geos.handle(), sequence_of(geos, ring, to_plane, true));
}

GEOSGeometry* polygon_of(const Geos& geos, const Polygon& polygon, const ToPlane& to_plane) {
  std::vector<GEOSGeometry*> holes;
  for (const Path& hole : polygon.holes)
    if (has_area(hole)) holes.push_back(ring_of(geos, hole, to_plane));
  return GEOSGeom_createPolygon_r(geos.handle(), ring_of(geos, polygon.outer, to_plane), holes.data(),
                                  static_cast<unsigned>(holes.size()));
}

std::vector<GEOSGeometry*> polygon_parts(const Geos& geos, const Shape& shape, const ToPlane& to_plane) {
  std::vector<GEOSGeometry*> parts;
  for (const Polygon& polygon : shape.polygons)
    if (has_area(polygon.outer)) parts.push_back(polygon_of(geos, polygon, to_plane));
  return parts;
}

Geometry collection_of(const Geos& geos, int type, std::vector<GEOSGeometry*> parts) {
  return own(geos, GEOSGeom_createCollection_r(geos.handle(), type, parts.data(),
                                               static_cast<unsigned>(parts.size())));
}

Polygon polygon_from(const Geos& geos, const GEOSGeometry* g) {
  Polygon polygon;
  polygon.outer = path_from(geos, GEOSGetExteriorRing_r(geos.handle(), g));
  const int holes = GEOSGetNumInteriorRings_r(geos.handle(), g);
  for (int i = 0; i < holes; ++i)
    polygon.holes.push_back(path_from(geos, GEOSGetInteriorRingN_r(geos.handle(), g, i)));
  return polygon;
}

}  // namespace

Extent extent_of(const Shape& shape) {
  Extent e{HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
  const auto widen = [&e](const Path& path) {
    for (const Point& p : path) {
      if (!std::isfinite(p.x) || !std::isfinite(p.y)) e.x0 = NAN;
      if (std::isnan(e.x0)) return;
      e = {std::fmin(e.x0, p.x), std::fmax(e.x1, p.x), std::fmin(e.y0, p.y), std::fmax(e.y1, p.y)};
    }
  };
  for (const Polygon& polygon : shape.polygons) {
    widen(polygon.outer);
    for (const Path& hole : polygon.holes) widen(hole);
  }
  for (const Path& line : shape.lines) widen(line);
  widen(shape.points);
  return e;
}

// What is impossible about coordinates as they stand in the file.

geod_geodesic wgs84() {
  geod_geodesic g{};
  geod_init(&g, equatorial_radius_m, flattening);
  return g;
}

ToPlane azimuthal_plane(Point centre) {
  return [g = wgs84(), centre](Point p) {
    double length = 0.0, azimuth = 0.0;
    geod_inverse(&g, centre.y, centre.x, p.y, p.x, &length, &azimuth, nullptr);
    const double angle = azimuth * radian_per_degree;
    return Point{length * std::sin(angle), length * std::cos(angle)};
  };
}

ToPlane back_from_azimuthal_plane(Point centre) {
  return [g = wgs84(), centre](Point p) {
    Point back;
    geod_direct(&g, centre.y, centre.x, std::atan2(p.x, p.y) / radian_per_degree, std::hypot(p.x, p.y),
                &back.y, &back.x, nullptr);
    return back;
  };
}

Geos::Geos() : handle_{GEOS_init_r()} {}
Geos::~Geos() { GEOS_finish_r(handle_); }

Geometry own(const Geos& geos, GEOSGeometry* g) {
  require(g != nullptr, "GEOS could not make a geometry");
  return Geometry{g, GeometryDeleter{geos.handle()}};
}

Point degrees_as_plane(Point p) { return p; }

double apart(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

Point centre_of(const Shape& shape) {
  const Extent box = extent_of(shape);
  return {0.5 * (box.x0 + box.x1), 0.5 * (box.y0 + box.y1)};
}

Shape in_plane(Shape shape, const ToPlane& plane) {
  for (Polygon& polygon : shape.polygons) {
    for (Point& p : polygon.outer) p = plane(p);
    for (Path& hole : polygon.holes)
      for (Point& p : hole) p = plane(p);
  }
  return shape;
}

Path path_from(const Geos& geos, const GEOSGeometry* line) {
  const GEOSCoordSequence* sequence = GEOSGeom_getCoordSeq_r(geos.handle(), line);
  unsigned size = 0;
  GEOSCoordSeq_getSize_r(geos.handle(), sequence, &size);
  Path path(size);
  for (unsigned i = 0; i < size; ++i)
    GEOSCoordSeq_getXY_r(geos.handle(), sequence, i, &path[i].x, &path[i].y);
  return path;
}

Point nearest_point_on(const Geos& geos, const GEOSGeometry* part, const GEOSGeometry* other) {
  GEOSCoordSequence* pair = GEOSNearestPoints_r(geos.handle(), part, other);
  require(pair != nullptr, "two shapes that are somewhere have nearest points");
  Point p;
  GEOSCoordSeq_getXY_r(geos.handle(), pair, 0, &p.x, &p.y);
  GEOSCoordSeq_destroy_r(geos.handle(), pair);
  return p;
}

bool has_area(const Path& ring) { return std::set<Point>(ring.begin(), ring.end()).size() >= 3; }

Geometry polygons_of(const Geos& geos, const Shape& shape, const ToPlane& to_plane) {
  return collection_of(geos, GEOS_MULTIPOLYGON, polygon_parts(geos, shape, to_plane));
}

Geometry everything_of(const Geos& geos, const Shape& shape, const ToPlane& to_plane) {
  std::vector<GEOSGeometry*> parts = polygon_parts(geos, shape, to_plane);
  for (const Path& line : shape.lines)
    if (line.size() >= 2)
      parts.push_back(GEOSGeom_createLineString_r(geos.handle(), sequence_of(geos, line, to_plane, false)));
  for (const Point& point : shape.points) {
    const Point p = to_plane(point);
    parts.push_back(GEOSGeom_createPointFromXY_r(geos.handle(), p.x, p.y));
  }
  return collection_of(geos, GEOS_GEOMETRYCOLLECTION, std::move(parts));
}

std::vector<Polygon> polygons_from(const Geos& geos, const GEOSGeometry* g) {
  if (GEOSisEmpty_r(geos.handle(), g)) return {};
  const int type = GEOSGeomTypeId_r(geos.handle(), g);
  if (type == GEOS_POLYGON) return {polygon_from(geos, g)};
  if (type != GEOS_MULTIPOLYGON && type != GEOS_GEOMETRYCOLLECTION) return {};
  std::vector<Polygon> all;
  const int parts = GEOSGetNumGeometries_r(geos.handle(), g);
  for (int i = 0; i < parts; ++i)
    for (Polygon& p : polygons_from(geos, GEOSGetGeometryN_r(geos.handle(), g, i)))
      all.push_back(std::move(p));
  return all;
}

Geometry made_valid(const Geos& geos, Geometry g) {
  if (GEOSisValid_r(geos.handle(), g.get()) == 1) return g;
  GEOSMakeValidParams* how = GEOSMakeValidParams_create_r(geos.handle());
  GEOSMakeValidParams_setMethod_r(geos.handle(), how, GEOS_MAKE_VALID_STRUCTURE);
  GEOSMakeValidParams_setKeepCollapsed_r(geos.handle(), how, 0);
  GEOSGeometry* mended = GEOSMakeValidWithParams_r(geos.handle(), g.get(), how);
  GEOSMakeValidParams_destroy_r(geos.handle(), how);
  return own(geos, mended);
}

}  // namespace aftercut::geo
