// The ground within a distance of something, against distance().
#include <cmath>
#include <numbers>

#include "aftercut/core/require.hpp"
#include "aftercut/geo/around.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::geo;

TEST_CASE("ground around a point, a line and a field ends at its reach", "[cross]") {
  const Shape point{{}, {}, {{-121.9, 39.3}}};
  const Shape line{{}, {{{-121.91, 39.3}, {-121.9, 39.302}, {-121.89, 39.3}}}, {}};
  const Shape field = rectangle({-121.9, 39.3}, Hectare{20.0}, 2.0);
  for (const Shape& shape : {point, line, field})
    for (const double reach : {30.0, 150.0, 800.0}) {
      const Shape near = around(shape, Metre{reach});
      REQUIRE_FALSE(near.polygons.empty());
      for (const Point& p : near.polygons.front().outer) {
        INFO(reach);
        CHECK(distance(shape, {{}, {}, {p}}).value() == Approx(reach).epsilon(0.003));
      }
    }
}

TEST_CASE("ground around a point has nearly the area of its circle, and less", "[identity]") {
  const double circle = std::numbers::pi * 150.0 * 150.0 / 10000.0;
  const double area = geodesic_area(around({{}, {}, {{-121.9, 39.3}}}, Metre{150.0})).value();
  CHECK(area < circle);
  CHECK(area > 0.99 * circle);
}

TEST_CASE("nothing is around what is nowhere", "[identity]") {
  CHECK_THROWS_AS(around({}, Metre{30.0}), InternalError);
  CHECK_THROWS_AS(around({{}, {}, {{-121.9, 39.3}}}, Metre{0.0}), InternalError);
}
