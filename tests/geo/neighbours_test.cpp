// Neighbours by the eight winds, against geodesics.
#include "aftercut/geo/neighbours.hpp"

#include <GeographicLib/Geodesic.hpp>

#include "catch2/catch.hpp"
#include "drawn.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::geo;
using test::Kind;

namespace {

constexpr Point corner{-121.9, 39.3};

Point from_middle(Point middle, double bearing_deg, double m) {
  Point p;
  GeographicLib::Geodesic::WGS84().Direct(middle.y, middle.x, bearing_deg, m, p.y, p.x);
  return p;
}

Shape field() { return rectangle(corner, Hectare{16.0}, 1.0); }  // 400 m by 400 m
Shape point(Point p) { return Shape{{}, {}, {p}}; }

}  // namespace

TEST_CASE("a point in each sector is found there, with distance and bearing", "[cross]") {
  const Shape land = field();
  const Point middle = label_point(land);
  for (std::size_t s = 0; s < sector_names.size(); ++s) {
    CAPTURE(sector_names[s]);
    const double bearing = 45.0 * static_cast<double>(s) + 7.0;
    const Around around = nearest_by_sector(land, {point(from_middle(middle, bearing, 900.0))});
    for (std::size_t other = 0; other < sector_names.size(); ++other)
      CHECK(around[other].has_value() == (other == s));
    REQUIRE(around[s]);
    test::check({{"bearing [deg]", "GeographicLib", Kind::cross, bearing, around[s]->bearing_deg, 0.01},
                 {"distance [m]", "geo::distance", Kind::cross,
                  distance(land, point(from_middle(middle, bearing, 900.0))).value(),
                  around[s]->distance.value(), 0.05}});
  }
}

//      road  ----------------------   400 m north of the edge, from far west to far east
//               +-----+
//        home   |     |
//               +-----+
TEST_CASE("a long road counts in every sector that it crosses, the nearer home wins its own", "[cross]") {
  const Shape land = field();
  const Point middle = label_point(land);
  const Point north = from_middle(middle, 0.0, 600.0);
  const Shape road{{}, {{{north.x - 0.02, north.y}, {north.x + 0.02, north.y}}}, {}};
  const Shape near_home = point(from_middle(middle, 270.0, 500.0));
  const Shape far_home = point(from_middle(middle, 268.0, 2500.0));
  const Around around = nearest_by_sector(land, {road, far_home, near_home});
  for (const std::size_t s : {0U, 1U, 7U}) {  // N, NE, NW
    REQUIRE(around[s]);
    CHECK(around[s]->place == 0);
  }
  CHECK(around[0]->distance.value() == Approx(400.0).margin(1.0));
  CHECK(around[1]->distance.value() >= around[0]->distance.value());
  REQUIRE(around[6]);
  CHECK(around[6]->place == 2);
  CHECK(around[6]->distance.value() == Approx(300.0).margin(1.0));
  CHECK_FALSE(around[4]);  // nothing in the south
}

TEST_CASE("a place that touches the field is 0 m away; an invalid one is still found", "[identity]") {
  const Shape land = field();
  const Around touching = nearest_by_sector(land, {land});
  for (const auto& n : touching) {
    REQUIRE(n);
    CHECK(n->distance.value() == 0.0);
  }
  const Point east = from_middle(label_point(land), 90.0, 700.0);
  const Shape bow{{Polygon{{{east.x, east.y},
                            {east.x + 0.001, east.y + 0.001},
                            {east.x + 0.001, east.y},
                            {east.x, east.y + 0.001},
                            {east.x, east.y}},
                           {}}},
                  {},
                  {}};
  CHECK(nearest_by_sector(land, {bow})[2]);
  CHECK_FALSE(nearest_by_sector(land, {})[0]);
}
