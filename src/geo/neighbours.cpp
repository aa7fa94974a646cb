#include "aftercut/geo/neighbours.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "plane.hpp"

namespace aftercut::geo {
namespace {

constexpr double sector_reach_m = 1e5;
constexpr double sector_deg = 45.0;

Point towards(double bearing_deg) {
  const double radian = bearing_deg * radian_per_degree;
  return {sector_reach_m * std::sin(radian), sector_reach_m * std::cos(radian)};
}

/// A wedge from the middle of the plane, out to the reach.
Geometry wedge(const Geos& geos, std::size_t sector) {
  const double middle = sector_deg * static_cast<double>(sector);
  const Path ring{{0.0, 0.0},
                  towards(middle - 0.5 * sector_deg),
                  towards(middle),
                  towards(middle + 0.5 * sector_deg),
                  {0.0, 0.0}};
  return polygons_of(geos, Shape{{Polygon{ring, {}}}, {}, {}});
}

Geometry valid_place(const Geos& geos, const Shape& shape, const ToPlane& plane) {
  Geometry g = everything_of(geos, shape, plane);
  if (GEOSisValid_r(geos.handle(), g.get()) == 1) return g;
  return own(geos, GEOSMakeValid_r(geos.handle(), g.get()));
}

}  // namespace

Around nearest_by_sector(const Shape& field, const std::vector<Shape>& places) {
  const Geos geos;
  const ToPlane plane = azimuthal_plane(label_point(field));
  const Geometry land = made_valid(geos, polygons_of(geos, field, plane));
  std::vector<Geometry> wedges;
  for (std::size_t s = 0; s < sector_names.size(); ++s) wedges.push_back(wedge(geos, s));
  Around around;
  for (std::size_t k = 0; k < places.size(); ++k) {
    const Geometry place = valid_place(geos, places[k], plane);
    for (std::size_t s = 0; s < wedges.size(); ++s) {
      const Geometry part = own(geos, GEOSIntersection_r(geos.handle(), place.get(), wedges[s].get()));
      if (GEOSisEmpty_r(geos.handle(), part.get())) continue;
      double metres = 0.0;
      require(GEOSDistance_r(geos.handle(), land.get(), part.get(), &metres) == 1, "GEOS gave no distance");
      if (around[s] && around[s]->distance.value() <= metres) continue;
      const Point p = nearest_point_on(geos, part.get(), land.get());
      const double bearing = std::atan2(p.x, p.y) / radian_per_degree;
      around[s] = Neighbour{k, Metre{metres}, bearing < 0.0 ? bearing + 360.0 : bearing};
    }
  }
  return around;
}

}  // namespace aftercut::geo
