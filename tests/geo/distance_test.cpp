// Distances between shapes, and the point for a label.
#include <GeographicLib/Geodesic.hpp>
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

double geodesic_m(Point a, Point b) {
  double length = 0.0;
  GeographicLib::Geodesic::WGS84().Inverse(a.y, a.x, b.y, b.x, length);
  return length;
}

Point ahead(Point from, double azimuth_deg, double metres) {
  Point to;
  GeographicLib::Geodesic::WGS84().Direct(from.y, from.x, azimuth_deg, metres, to.y, to.x);
  return to;
}

Row points_row(const char* name, Point a, Point b) {
  const double expected = geodesic_m(a, b);
  return {name,
          "GeographicLib",
          Kind::cross,
          expected,
          distance({{}, {}, {a}}, {{}, {}, {b}}).value(),
          1e-5 * expected + 1e-6};
}

// Inside by the ray rule.
bool inside(const Path& ring, Point p) {
  bool in = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
    if ((ring[i].y > p.y) != (ring[j].y > p.y) &&
        p.x < (ring[j].x - ring[i].x) * (p.y - ring[i].y) / (ring[j].y - ring[i].y) + ring[i].x)
      in = !in;
  return in;
}

}  // namespace

TEST_CASE("distances between points agree with GeographicLib", "[cross]") {
  const Point home{-122.0, 39.2}, south{146.0, -34.5}, high{10.0, 62.0};
  check({
      points_row("100 m east", home, ahead(home, 90.0, 100.0)),
      points_row("1 km north-west", home, ahead(home, 315.0, 1000.0)),
      points_row("50 km", home, ahead(home, 37.0, 50000.0)),
      points_row("3 km, south", south, ahead(south, 200.0, 3000.0)),
      points_row("50 km at 62 N", high, ahead(high, 60.0, 50000.0)),
  });
}

TEST_CASE("distance is to the nearest edge, the same both ways, and zero on touching or inside", "[cross]") {
  const Shape field = one(square({-122.0, 39.2}, 0.01));
  const Point middle_of_east_side{-121.99, 39.205};
  const Point house = ahead(middle_of_east_side, 90.0, 250.0);
  const Shape there{{}, {}, {house}};
  const Shape road{{}, {{ahead({-121.99, 39.19}, 90.0, 80.0), ahead({-121.99, 39.23}, 90.0, 80.0)}}, {}};
  check({
      {"field to house", "GeographicLib", Kind::cross, 250.0, distance(field, there).value(), 0.01},
      {"house to field", "identity", Kind::identity, distance(field, there).value(),
       distance(there, field).value(), 1e-9},
      {"field to road", "GeographicLib", Kind::cross, 80.0, distance(field, road).value(), 0.1},
  });
  CHECK(distance(field, one(square({-121.99, 39.2}, 0.01))).value() == 0.0);
  CHECK(distance(field, {{}, {}, {{-121.995, 39.205}}}).value() == 0.0);
  CHECK(distance(field, one(square({-121.996, 39.204}, 0.002))).value() == 0.0);
}

TEST_CASE("a hole keeps what stands in it apart from the field", "[cross]") {
  const Shape ring_field = one(square({-122.0, 39.2}, 0.01), {square({-121.997, 39.203}, 0.004)});
  const Point yard{-121.995, 39.205};
  const double to_hole_edge =
      std::min(geodesic_m(yard, {-121.993, 39.205}), geodesic_m(yard, {-121.995, 39.207}));
  check({{"yard in the hole", "GeographicLib", Kind::cross, to_hole_edge,
          distance(ring_field, {{}, {}, {yard}}).value(), 0.05}});
}

TEST_CASE("farther away is farther", "[identity]") {
  const Shape field = one(square({-122.0, 39.2}, 0.01));
  double last = 0.0;
  for (int km = 1; km <= 20; ++km) {
    const double now = distance(field, {{}, {}, {ahead({-122.0, 39.2}, 225.0, km * 1000.0)}}).value();
    CHECK(now > last);
    last = now;
  }
}

TEST_CASE("a distance from nowhere is our own fault", "[identity]") {
  CHECK_THROWS_AS(distance(Shape{}, one(square({0, 0}, 0.01))), InternalError);
  CHECK_THROWS_AS(label_point(Shape{}), InternalError);
}

TEST_CASE("the label stands inside, also in a C and beside a hole", "[identity]") {
  //  +-----+
  //  | +---+
  //  | |
  //  | +---+
  //  +-----+
  const Path c =
      ring({-122.0, 39.0}, 0.001, {{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 4}, {4, 4}, {4, 5}, {0, 5}});
  CHECK(inside(c, label_point(one(c))));
  const Path outer = square({-122.0, 39.0}, 0.01), hole = square({-121.998, 39.002}, 0.006);
  const Point beside = label_point(one(outer, {hole}));
  CHECK(inside(outer, beside));
  CHECK_FALSE(inside(hole, beside));
  const Path bow = ring({-122.0, 39.0}, 0.001, {{0, 0}, {2, 2}, {2, 0}, {0, 2}});
  CHECK_NOTHROW(label_point(one(bow)));
  CHECK(label_point({{}, {}, {{5.0, 6.0}}}) == Point{5.0, 6.0});
}
