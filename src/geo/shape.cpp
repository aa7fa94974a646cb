#include "aftercut/geo/shape.hpp"

#include <geodesic.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "plane.hpp"

namespace aftercut::geo {
namespace {

constexpr double square_metres_per_ha = 1e4;
struct Measure {
  double area_m2 = 0.0;
  double length_m = 0.0;
};

Measure measure_ring(const geod_geodesic& g, const Path& ring) {
  geod_polygon polygon{};
  geod_polygon_init(&polygon, 0);
  const bool repeats = ring.size() > 1 && ring.front() == ring.back();
  for (std::size_t i = 0; i < ring.size() - (repeats ? 1U : 0U); ++i)
    geod_polygon_addpoint(&g, &polygon, ring[i].y, ring[i].x);
  Measure m;
  geod_polygon_compute(&g, &polygon, 0, 1, &m.area_m2, &m.length_m);
  m.area_m2 = std::abs(m.area_m2);
  return m;
}

Measure measure(const Shape& shape) {
  const geod_geodesic g = wgs84();
  Measure sum;
  for (const Polygon& polygon : shape.polygons) {
    if (polygon.outer.empty()) continue;
    const Measure outer = measure_ring(g, polygon.outer);
    sum.area_m2 += outer.area_m2;
    sum.length_m += outer.length_m;
    for (const Path& hole : polygon.holes) {
      if (hole.empty()) continue;
      const Measure inner = measure_ring(g, hole);
      sum.area_m2 -= inner.area_m2;
      sum.length_m += inner.length_m;
    }
  }
  return sum;
}

Point middle_of(const Shape& a, const Shape& b) {
  const Extent ea = extent_of(a), eb = extent_of(b);
  return {0.5 * (std::min(ea.x0, eb.x0) + std::max(ea.x1, eb.x1)),
          0.5 * (std::min(ea.y0, eb.y0) + std::max(ea.y1, eb.y1))};
}

Shape box(Point corner, double width_deg, double height_deg) {
  const double x = corner.x + width_deg, y = corner.y + height_deg;
  return Shape{{Polygon{{corner, {x, corner.y}, {x, y}, {corner.x, y}, corner}, {}}}, {}, {}};
}

}  // namespace

Hectare geodesic_area(const Shape& shape) { return Hectare{measure(shape).area_m2 / square_metres_per_ha}; }

Metre geodesic_perimeter(const Shape& shape) { return Metre{measure(shape).length_m}; }

Metre distance(const Shape& a, const Shape& b) {
  const Geos geos;
  const ToPlane plane = azimuthal_plane(middle_of(a, b));
  const Geometry ga = everything_of(geos, a, plane), gb = everything_of(geos, b, plane);
  require(!GEOSisEmpty_r(geos.handle(), ga.get()) && !GEOSisEmpty_r(geos.handle(), gb.get()),
          "a distance needs two shapes that are somewhere");
  double metres = 0.0;
  require(GEOSDistance_r(geos.handle(), ga.get(), gb.get(), &metres) == 1, "GEOS gave no distance");
  return Metre{metres};
}

Point label_point(const Shape& shape) {
  const Geos geos;
  const Geometry inside =
      shape.polygons.empty() ? everything_of(geos, shape) : made_valid(geos, polygons_of(geos, shape));
  const Geometry point = own(geos, GEOSPointOnSurface_r(geos.handle(), inside.get()));
  require(!GEOSisEmpty_r(geos.handle(), point.get()), "a label needs a shape that is somewhere");
  Point p;
  GEOSGeomGetX_r(geos.handle(), point.get(), &p.x);
  GEOSGeomGetY_r(geos.handle(), point.get(), &p.y);
  return p;
}

Shape rectangle(Point corner, Hectare area, double ratio) {
  require(area.value() > 0.0 && ratio > 0.0, "a rectangle needs a positive area and ratio");
  const geod_geodesic g = wgs84();
  const double height_m = std::sqrt(area.value() * square_metres_per_ha / ratio);
  double unused = 0.0, east = 0.0, north = 0.0;
  geod_direct(&g, corner.y, corner.x, 90.0, height_m * ratio, &unused, &east, nullptr);
  geod_direct(&g, corner.y, corner.x, 0.0, height_m, &north, &unused, nullptr);
  double width = east - corner.x, height = north - corner.y;
  for (int pass = 0; pass < 20; ++pass) {
    const double share = area / geodesic_area(box(corner, width, height));
    if (std::abs(share - 1.0) < 1e-12) break;
    width *= std::sqrt(share);
    height *= std::sqrt(share);
  }
  return box(corner, width, height);
}

}  // namespace aftercut::geo
