// Areas and lengths on the ellipsoid, against GeographicLib and against the closed formula of a latitude
// band.
#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>
#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/geo/shape.hpp"
#include "catch2/catch.hpp"
#include "drawn.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::geo;
using namespace aftercut::test;

namespace {

struct Both {
  double area_ha = 0.0;
  double length_m = 0.0;
};

Both by_geographiclib(const Path& ring) {
  GeographicLib::PolygonArea polygon{GeographicLib::Geodesic::WGS84()};
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) polygon.AddPoint(ring[i].y, ring[i].x);
  Both both;
  polygon.Compute(false, true, both.length_m, both.area_ha);
  both.area_ha = std::abs(both.area_ha) / 1e4;
  return both;
}

Row area_row(const char* name, const Shape& shape) {
  double expected = 0.0;
  for (const Polygon& p : shape.polygons) {
    expected += by_geographiclib(p.outer).area_ha;
    for (const Path& hole : p.holes) expected -= by_geographiclib(hole).area_ha;
  }
  return {name, "GeographicLib", Kind::cross, expected, geodesic_area(shape).value(), 1e-6 * expected};
}

// Area between two parallels over a span of longitude, from the authalic latitude.
// Source: Snyder1987 eq. 3-12 (recalled): q = (1-e2)[sin f/(1-e2 sin2 f) - (1/2e) ln((1-e sin f)/(1+e sin
// f))].
double band_ha(double south, double north, double width_deg) {
  const double a = 6378137.0, f = 1.0 / 298.257223563, e2 = f * (2.0 - f), e = std::sqrt(e2),
               rad = std::acos(-1.0) / 180.0;
  const auto q = [&](double latitude) {
    const double s = std::sin(latitude * rad);
    return (1.0 - e2) * (s / (1.0 - e2 * s * s) - std::log((1.0 - e * s) / (1.0 + e * s)) / (2.0 * e));
  };
  return 0.5 * a * a * width_deg * rad * (q(north) - q(south)) / 1e4;
}

// A quadrilateral between parallels, its north and south sides cut into `pieces` so that geodesics follow
// them.
Shape band(Point corner, double width, double height, int pieces) {
  Path path;
  for (int i = 0; i <= pieces; ++i) path.push_back({corner.x + width * i / pieces, corner.y});
  for (int i = pieces; i >= 0; --i) path.push_back({corner.x + width * i / pieces, corner.y + height});
  path.push_back(path.front());
  return one(path);
}

}  // namespace

TEST_CASE("areas agree with GeographicLib in both hemispheres, with holes and corners", "[cross]") {
  const Point north{-122.01, 39.2}, south{145.9, -34.6}, equator{104.0, -0.001};
  Shape two = one(l_ring(north, 0.003));
  two.polygons.push_back({square({-122.05, 39.3}, 0.004), {}});
  check({
      area_row("square, north", one(square(north, 0.004))),
      area_row("L, north", one(l_ring(north, 0.003))),
      area_row("L, south", one(l_ring(south, 0.003))),
      area_row("L across the equator", one(l_ring(equator, 0.001))),
      area_row("square with a hole", one(square(south, 0.01), {square({145.903, -34.597}, 0.002)})),
      area_row("L with two holes", one(l_ring(north, 0.01), {square({-122.008, 39.202}, 0.003),
                                                             square({-122.008, 39.212}, 0.002)})),
      area_row("two parts", two),
      area_row("a tenth of a hectare", one(square(north, 0.0003))),
      area_row("a whole district", one(square(north, 0.8))),
  });
}

TEST_CASE("areas agree with the closed formula of a band between parallels", "[derived]") {
  check({
      {"0.01 x 0.01 degrees at 39.2 N", "Snyder1987 eq. 3-12", Kind::derived, band_ha(39.2, 39.21, 0.01),
       geodesic_area(band({-122.0, 39.2}, 0.01, 0.01, 100)).value(), 1e-4},
      {"0.02 x 0.01 degrees at 34.6 S", "Snyder1987 eq. 3-12", Kind::derived, band_ha(-34.6, -34.59, 0.02),
       geodesic_area(band({146.0, -34.6}, 0.02, 0.01, 100)).value(), 1e-4},
  });
}

TEST_CASE("the order of a ring's points does not change its area; a hole is taken off", "[identity]") {
  const Path outer = square({-122.0, 39.0}, 0.01);
  const Path hole = square({-121.997, 39.003}, 0.002);
  Path turned = outer, turned_hole = hole;
  std::reverse(turned.begin(), turned.end());
  std::reverse(turned_hole.begin(), turned_hole.end());
  const double with = geodesic_area(one(outer, {hole})).value();
  check({
      {"turned outer ring", "identity", Kind::identity, with, geodesic_area(one(turned, {hole})).value(),
       1e-9},
      {"turned hole", "identity", Kind::identity, with, geodesic_area(one(outer, {turned_hole})).value(),
       1e-9},
      {"outer = rest + hole", "identity", Kind::identity, geodesic_area(one(outer)).value(),
       with + geodesic_area(one(hole)).value(), 1e-9},
  });
  CHECK(with < geodesic_area(one(outer)).value());
  CHECK(geodesic_area(Shape{}).value() == 0.0);
  CHECK(geodesic_area(Shape{{}, {outer}, {{1.0, 2.0}}}).value() == 0.0);
}

TEST_CASE("the perimeter counts holes and agrees with GeographicLib", "[cross]") {
  const Path outer = l_ring({-122.0, 39.0}, 0.004), hole = square({-121.999, 39.001}, 0.001);
  check({{"L with a hole", "GeographicLib", Kind::cross,
          by_geographiclib(outer).length_m + by_geographiclib(hole).length_m,
          geodesic_perimeter(one(outer, {hole})).value(), 1e-6}});
}

TEST_CASE("a rectangle has the area and the ratio that were asked for", "[identity]") {
  for (const double hectares : {0.5, 12.0, 64.75, 400.0})
    for (const double latitude : {39.3, -35.1, 0.0, 10.5}) {
      const Shape field = rectangle({-122.0, latitude}, Hectare{hectares}, 2.0);
      const Path& r = field.polygons.at(0).outer;
      double wide = 0.0, high = 0.0;
      GeographicLib::Geodesic::WGS84().Inverse(r[0].y, r[0].x, r[1].y, r[1].x, wide);
      GeographicLib::Geodesic::WGS84().Inverse(r[1].y, r[1].x, r[2].y, r[2].x, high);
      check({{"area", "identity", Kind::identity, hectares, geodesic_area(field).value(), 1e-9 * hectares},
             {"east side / north side", "identity", Kind::identity, 2.0, wide / high, 0.002}});
      CHECK(r.front() == Point{-122.0, latitude});
    }
  CHECK_THROWS_AS(rectangle({0.0, 0.0}, Hectare{0.0}, 2.0), InternalError);
  CHECK_THROWS_AS(rectangle({0.0, 0.0}, Hectare{1.0}, -1.0), InternalError);
}
