#include "aftercut/geo/cuts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "aftercut/core/require.hpp"
#include "plane.hpp"

namespace aftercut::geo {
namespace {

constexpr double least_cut_m2 = 1.0;  // slivers of the noding
constexpr double touches_m = 0.01;    // a cut that begins so near a corner begins at it
constexpr double least_edge_m = 1.0;  // shorter edges give no direction worth a cut
constexpr double outside_m = 0.5;
constexpr double flat_turn_deg = 180.0;

/// A field in metres about its middle, with the way back.
struct Flat {
  ToPlane to_plane, from_plane;
  Shape shape;
};

Flat flat_of(const Shape& field) {
  require(!field.polygons.empty(), "a cut needs a field with an outline");
  const Point centre = centre_of(field);
  Flat flat{azimuthal_plane(centre), back_from_azimuthal_plane(centre), {}};
  flat.shape.polygons = in_plane(field, flat.to_plane).polygons;
  return flat;
}

Point beyond(Point from, Point to, double by_m) {
  const double length = apart(from, to);
  if (length <= 0.0) return to;
  return {to.x + by_m * (to.x - from.x) / length, to.y + by_m * (to.y - from.y) / length};
}

Path prolonged(Path path, double by_m) {
  if (path.size() < 2) return path;
  path.front() = beyond(path[1], path[0], by_m);
  path.back() = beyond(path[path.size() - 2], path.back(), by_m);
  return path;
}

/// The faces that the field's edges and the lines enclose, inside the field.
std::vector<Polygon> faces_of(const Geos& geos, const Shape& flat, const std::vector<Path>& lines) {
  GEOSContextHandle_t h = geos.handle();
  const Geometry field = made_valid(geos, polygons_of(geos, flat));
  Shape cuts;
  cuts.lines = lines;
  const Geometry edges = own(geos, GEOSBoundary_r(h, field.get()));
  const Geometry all = own(geos, GEOSUnion_r(h, edges.get(), everything_of(geos, cuts).get()));
  const GEOSGeometry* noded[] = {all.get()};
  const Geometry faces = own(geos, GEOSPolygonize_r(h, noded, 1));
  std::vector<Polygon> inside;
  for (Polygon& face : polygons_from(geos, faces.get())) {
    const Geometry g = polygons_of(geos, Shape{{face}, {}, {}});
    const Geometry middle = own(geos, GEOSPointOnSurface_r(h, g.get()));
    double area = 0.0;
    GEOSArea_r(h, g.get(), &area);
    if (area >= least_cut_m2 && GEOSContains_r(h, field.get(), middle.get()) == 1)
      inside.push_back(std::move(face));
  }
  return inside;
}

struct Bend {
  double degrees = 0.0;  ///< beyond straight
  Point before, corner, after;
};

/// Corners of a ring at which the outline turns into the field, driven so that the field lies to the left.
void add_bends(const Path& ring, bool outer, double least_deg, std::vector<Bend>& bends) {
  double twice_area = 0.0;
  for (std::size_t i = 1; i < ring.size(); ++i)
    twice_area += ring[i - 1].x * ring[i].y - ring[i].x * ring[i - 1].y;
  const bool left = (twice_area > 0.0) == outer;
  const std::size_t n = ring.size() - 1;
  for (std::size_t i = 0; i < n; ++i) {
    Point a = ring[(i + n - 1) % n], c = ring[(i + 1) % n];
    const Point b = ring[i];
    if (!left) std::swap(a, c);
    const double in = std::atan2(b.y - a.y, b.x - a.x), out = std::atan2(c.y - b.y, c.x - b.x);
    const double turn = std::remainder((out - in) / radian_per_degree, 2.0 * flat_turn_deg);
    const bool long_enough = apart(a, b) >= least_edge_m && apart(b, c) >= least_edge_m;
    if (-turn >= least_deg && long_enough) bends.push_back({-turn, a, b, c});
  }
}

/// Just outside the field at the bend, between its two edges: a cut that comes from there surely meets the
/// edge.
Point outside_of(const Bend& b) {
  const double in = apart(b.before, b.corner), out = apart(b.after, b.corner);
  const Point middle{b.corner.x + (b.before.x - b.corner.x) / in + (b.after.x - b.corner.x) / out,
                     b.corner.y + (b.before.y - b.corner.y) / in + (b.after.y - b.corner.y) / out};
  return beyond(b.corner, middle, outside_m - apart(b.corner, middle));
}

/// From the corner straight on through the field to where it first leaves it; nothing when it leaves at once.
std::optional<Path> cut_from(const Geos& geos, const GEOSGeometry* field, Point corner, Point ahead,
                             double reach) {
  GEOSContextHandle_t h = geos.handle();
  Shape ray;
  ray.lines = {{corner, beyond(corner, ahead, reach)}};
  const Geometry within = own(geos, GEOSIntersection_r(h, field, everything_of(geos, ray).get()));
  const int parts = GEOSGetNumGeometries_r(h, within.get());
  for (int k = 0; k < parts; ++k) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(h, within.get(), k);
    if (GEOSGeomTypeId_r(h, part) != GEOS_LINESTRING || GEOSisEmpty_r(h, part) == 1) continue;
    const Path points = path_from(geos, part);
    Point a = points.front(), b = points.back();
    if (apart(b, corner) < apart(a, corner)) std::swap(a, b);
    if (apart(a, corner) <= touches_m && apart(a, b) > least_edge_m) return Path{a, b};
  }
  return std::nullopt;
}

}  // namespace

std::vector<Shape> cut_along(const Shape& field, const std::vector<Path>& lines, double reach_m) {
  const Flat flat = flat_of(field);
  const Geos geos;
  std::vector<Path> cuts;
  for (Path path : lines) {
    for (Point& p : path) p = flat.to_plane(p);
    cuts.push_back(prolonged(std::move(path), reach_m));
  }
  std::vector<Shape> pieces;
  if (!cuts.empty())
    for (Polygon& face : faces_of(geos, flat.shape, cuts))
      pieces.push_back(in_plane({{std::move(face)}, {}, {}}, flat.from_plane));
  if (pieces.size() < 2) return {field};
  std::sort(pieces.begin(), pieces.end(), [](const Shape& a, const Shape& b) {
    const Extent p = extent_of(a), q = extent_of(b);
    return std::pair{-(p.y0 + p.y1), p.x0 + p.x1} < std::pair{-(q.y0 + q.y1), q.x0 + q.x1};
  });
  return pieces;
}

std::vector<Path> cuts_at_bends(const Shape& field, double least_bend_deg, std::size_t most) {
  const Flat flat = flat_of(field);
  std::vector<Bend> bends;
  for (const Polygon& polygon : flat.shape.polygons) add_bends(polygon.outer, true, least_bend_deg, bends);
  std::stable_sort(bends.begin(), bends.end(),
                   [](const Bend& a, const Bend& b) { return a.degrees > b.degrees; });
  const Geos geos;
  const Geometry whole = made_valid(geos, polygons_of(geos, flat.shape));
  const Extent box = extent_of(flat.shape);
  const double reach = std::hypot(box.x1 - box.x0, box.y1 - box.y0);
  std::vector<Path> cuts;
  for (const Bend& bend : bends)
    for (const Point from : {bend.before, bend.after}) {
      const auto cut = cut_from(geos, whole.get(), bend.corner, beyond(from, bend.corner, 1.0), reach);
      if (cut && cuts.size() < most)
        cuts.push_back(
            {flat.from_plane(outside_of(bend)), flat.from_plane(bend.corner), flat.from_plane(cut->back())});
    }
  return cuts;
}

}  // namespace aftercut::geo
