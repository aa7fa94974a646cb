#include "aftercut/geo/swaths.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "aftercut/core/require.hpp"
#include "plane.hpp"
#include "strips.hpp"

namespace aftercut::geo {
namespace {

constexpr double least_rest_m = 0.05;  // a rest this narrow adds no pass. Source: SwathRest (assumed)
constexpr double least_piece_m2 = 1e-3;
constexpr double mitre_limit = 5.0;
constexpr double least_share_of_edges =
    0.25;  // of the metres of the main heading: less is no side of the field

/// A plane turned so that the heading runs along x; and back.
ToPlane turned(double heading_deg) {
  const double s = std::sin(heading_deg * radian_per_degree), c = std::cos(heading_deg * radian_per_degree);
  return [s, c](Point p) { return Point{p.x * s + p.y * c, p.x * c - p.y * s}; };
}

Geometry grown(const Geos& geos, const GEOSGeometry* g, double by_m, int cap = GEOSBUF_CAP_FLAT) {
  return own(geos, GEOSBufferWithStyle_r(geos.handle(), g, by_m, 8, cap, GEOSBUF_JOIN_MITRE, mitre_limit));
}

double area_of(const Geos& geos, const GEOSGeometry* g) {
  double area = 0.0;
  require(GEOSArea_r(geos.handle(), g, &area) == 1, "GEOS gave no area");
  return area;
}

double length_of(const Path& path) {
  double sum = 0.0;
  for (std::size_t i = 1; i < path.size(); ++i) sum += apart(path[i - 1], path[i]);
  return sum;
}

/// Where a closed path turns by 45 degrees or more.
int corners_of(const Path& ring) {
  constexpr double sharp_deg = 45.0;
  const std::size_t n = ring.size() - 1;
  int corners = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = ring[(i + n - 1) % n], b = ring[i], c = ring[i + 1];
    const double turn = std::atan2(c.y - b.y, c.x - b.x) - std::atan2(b.y - a.y, b.x - a.x);
    if (std::abs(std::remainder(turn / radian_per_degree, 360.0)) >= sharp_deg) ++corners;
  }
  return corners;
}

/// The strips of this width across a shape whose passes run along x. The last one laps over the one before.
std::vector<StripPiece> pieces_of(const Geos& geos, const Shape& inner, double width) {
  GEOSContextHandle_t h = geos.handle();
  const Geometry all = polygons_of(geos, inner);
  const Extent box = extent_of(inner);
  std::vector<StripPiece> pieces;
  const int strips = std::max(1, static_cast<int>(std::ceil((box.y1 - box.y0 - least_rest_m) / width)));
  for (int i = 0; i < strips; ++i) {
    const double low = i + 1 < strips ? box.y0 + i * width : std::max(box.y0, box.y1 - width);
    const Geometry strip =
        own(geos, GEOSClipByRect_r(h, all.get(), box.x0 - 1.0, low, box.x1 + 1.0, low + width));
    if (GEOSisEmpty_r(h, strip.get()) == 1) continue;
    const int parts = GEOSGetNumGeometries_r(h, strip.get());
    for (int k = 0; k < parts; ++k) {
      const GEOSGeometry* part = GEOSGetGeometryN_r(h, strip.get(), k);  // belongs to the strip
      if (area_of(geos, part) < least_piece_m2) continue;
      StripPiece piece{.y = low + 0.5 * width, .from = 0.0, .to = 0.0, .strip = i};
      GEOSGeom_getXMin_r(h, part, &piece.from);
      GEOSGeom_getXMax_r(h, part, &piece.to);
      pieces.push_back(piece);
    }
  }
  return pieces;
}

SwathSums sums_of(const Drive& drive, const std::vector<Path>& rounds) {
  SwathSums s{.passes = static_cast<int>(drive.passes.size()),
              .turns = drive.turns,
              .staggered_m = drive.staggered_m,
              .between_blocks_m = drive.between_blocks_m};
  for (const Path& round : rounds) {
    s.headland_m += length_of(round);
    s.corners += corners_of(round);
  }
  for (const Driven& d : drive.passes) {
    s.interior_m += std::abs(d.to.x - d.from.x);
    s.blocks = std::max(s.blocks, d.block + 1);
  }
  return s;
}

Path rectangle_over(Point from, Point to, double width) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const double ax = (to.x - from.x) / length, ay = (to.y - from.y) / length, h = 0.5 * width;
  return {{from.x - ay * h, from.y + ax * h},
          {to.x - ay * h, to.y + ax * h},
          {to.x + ay * h, to.y - ax * h},
          {from.x + ay * h, from.y - ax * h},
          {from.x - ay * h, from.y + ax * h}};
}

}  // namespace

struct SwathGround::Inside {
  Geos geos;
  ToPlane to_plane, from_plane;
  Shape flat;  // metres
  Geometry field;
  double width_m = 0.0;
  Shape inner;               // within the rounds, metres
  std::vector<Path> rounds;  // metres

  [[nodiscard]] Drive drive(const ToPlane& turn) const {
    if (inner.polygons.empty()) return {};
    return drive_order(group_into_blocks(pieces_of(geos, in_plane(inner, turn), width_m)));
  }
};

SwathGround::SwathGround(const Shape& field, double width_m, int headland_rounds) {
  require(!field.polygons.empty(), "swaths need a field with an outline");
  require(width_m > 0.0 && headland_rounds >= 0, "swaths have a width and no negative rounds");
  const Point centre = centre_of(field);
  in_ = std::make_unique<Inside>();
  in_->to_plane = azimuthal_plane(centre);
  in_->from_plane = back_from_azimuthal_plane(centre);
  in_->width_m = width_m;
  in_->flat.polygons = in_plane(field, in_->to_plane).polygons;
  in_->field = made_valid(in_->geos, polygons_of(in_->geos, in_->flat));
  for (int k = 0; k < headland_rounds; ++k) {
    const Geometry round = grown(in_->geos, in_->field.get(), -width_m * (k + 0.5));
    for (const Polygon& polygon : polygons_from(in_->geos, round.get())) {
      in_->rounds.push_back(polygon.outer);
      in_->rounds.insert(in_->rounds.end(), polygon.holes.begin(), polygon.holes.end());
    }
  }
  const Geometry inner = grown(in_->geos, in_->field.get(), -width_m * headland_rounds);
  in_->inner.polygons = polygons_from(in_->geos, inner.get());
}
SwathGround::~SwathGround() = default;
SwathGround::SwathGround(SwathGround&&) noexcept = default;
SwathGround& SwathGround::operator=(SwathGround&&) noexcept = default;

double SwathGround::area_m2() const { return area_of(in_->geos, in_->field.get()); }

std::vector<double> SwathGround::edge_headings() const {
  constexpr double step_deg = 0.5;  // edges within half of it count as parallel
  std::map<int, double> metres;
  for (const Polygon& polygon : in_->flat.polygons)
    for (std::size_t i = 1; i < polygon.outer.size(); ++i) {
      const Point a = polygon.outer[i - 1], b = polygon.outer[i];
      const double length = std::hypot(b.x - a.x, b.y - a.y);
      if (length <= 0.0) continue;
      const double heading = std::fmod(std::atan2(b.x - a.x, b.y - a.y) / radian_per_degree + 360.0, 180.0);
      metres[static_cast<int>(std::lround(heading / step_deg)) % 360] += length;
    }
  std::vector<std::pair<double, double>> by_length;
  for (const auto& [step, length] : metres) by_length.emplace_back(-length, step * step_deg);
  std::sort(by_length.begin(), by_length.end());
  std::vector<double> headings;
  for (const auto& [length, heading] : by_length)
    if (-length >= least_share_of_edges * -by_length.front().first) headings.push_back(heading);
  return headings;
}

SwathSums SwathGround::measure(double heading_deg) const {
  return sums_of(in_->drive(turned(heading_deg)), in_->rounds);
}

Swaths SwathGround::lay(double heading_deg) const {
  const ToPlane turn = turned(heading_deg);  // its own inverse: turning mirrors
  const Drive drive = in_->drive(turn);
  Swaths out{.sums = sums_of(drive, in_->rounds), .passes = {}, .headland = in_->rounds};
  for (Path& round : out.headland)
    for (Point& p : round) p = in_->from_plane(p);
  for (const Driven& d : drive.passes)
    out.passes.push_back(
        {in_->from_plane(turn(d.from)), in_->from_plane(turn(d.to)), std::abs(d.to.x - d.from.x), d.block});
  return out;
}

Coverage SwathGround::coverage(const Swaths& swaths) const {
  const Geos& geos = in_->geos;
  const double width_m = in_->width_m;
  Shape strips;
  for (const Pass& pass : swaths.passes) {
    const Point a = in_->to_plane(pass.from), b = in_->to_plane(pass.to);
    if (!(a == b)) strips.polygons.push_back({rectangle_over(a, b, width_m), {}});
  }
  Shape rounds;
  rounds.lines = swaths.headland;
  const Geometry lines = everything_of(geos, rounds, in_->to_plane);
  const Geometry edge = grown(geos, lines.get(), 0.5 * width_m);
  const Geometry passes = own(geos, GEOSUnaryUnion_r(geos.handle(), polygons_of(geos, strips).get()));
  const Geometry worked = own(geos, GEOSUnion_r(geos.handle(), edge.get(), passes.get()));
  const Geometry inside = own(geos, GEOSIntersection_r(geos.handle(), worked.get(), in_->field.get()));
  Coverage c;
  c.field_m2 = area_m2();
  c.worked_m2 = area_of(geos, inside.get());
  c.twice_m2 = (swaths.sums.headland_m + swaths.sums.interior_m) * width_m - area_of(geos, worked.get());
  return c;
}

}  // namespace aftercut::geo
