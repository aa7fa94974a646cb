#include "aftercut/geo/network.hpp"

#include <cmath>

#include "catch2/catch.hpp"
#include "metres.hpp"

using namespace aftercut::geo;
using namespace aftercut::test;

namespace {

Shape stop_at(double x, double y) { return {{}, {}, {at_metres(x, y)}}; }
Shape square_at(double x, double y, double side) {
  return field_in_metres({{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}, {x, y}});
}
constexpr double way_tolerance = 0.005;  // of the local metres above

}  // namespace

TEST_CASE("the way along roads, not as the crow flies", "[identity]") {
  //  a           b
  //  |           |
  //  +-----+-----+
  const std::vector<Path> roads{path_in_metres({{0, 300}, {0, 0}, {500, 0}}),
                                path_in_metres({{500, 0}, {500, 300}})};
  const auto ways = ways_along(roads, {stop_at(0, 300), stop_at(500, 300)}, 20.0);
  CHECK(ways[0][1] == Approx(1100.0).epsilon(way_tolerance));
  CHECK(ways[0][1] == Approx(ways[1][0]));
  CHECK(ways[0][0] == 0.0);
}

TEST_CASE("roads that cross without a common corner meet; the shorter way is taken", "[identity]") {
  const std::vector<Path> roads{path_in_metres({{-100, 0}, {400, 0}}),
                                path_in_metres({{300, -100}, {300, 200}}),
                                path_in_metres({{0, 0}, {0, 900}, {300, 900}, {300, 200}})};
  const auto ways = ways_along(roads, {stop_at(0, 0), stop_at(300, 200)}, 20.0);
  CHECK(ways[0][1] == Approx(500.0).epsilon(way_tolerance));
}

TEST_CASE("ends two metres apart meet, ends ten metres apart do not", "[identity]") {
  const std::vector<Shape> stops{stop_at(0, 0), stop_at(400, 0)};
  const auto near =
      ways_along({path_in_metres({{0, 0}, {200, 0}}), path_in_metres({{201.5, 0}, {400, 0}})}, stops, 20.0);
  CHECK(near[0][1] == Approx(400.0).epsilon(way_tolerance));
  const auto far =
      ways_along({path_in_metres({{0, 0}, {200, 0}}), path_in_metres({{210, 0}, {400, 0}})}, stops, 20.0);
  CHECK(std::isinf(far[0][1]));
}

TEST_CASE("a field is reached from a road nearby, not from one beyond its reach", "[identity]") {
  const std::vector<Path> roads{path_in_metres({{0, 0}, {1000, 0}})};
  const std::vector<Shape> stops{square_at(0, 40, 100), square_at(700, -160, 100), square_at(300, 400, 50)};
  const auto ways = ways_along(roads, stops, 100.0);
  CHECK(std::isfinite(ways[0][1]));
  CHECK(ways[0][1] >= 600.0 * (1.0 - way_tolerance));  // along the road between the two
  CHECK(ways[0][1] <=
        (800.0 + 100.0) * (1.0 + way_tolerance));  // at most from far end to far end and off the road
  CHECK(std::isinf(ways[0][2]));
  CHECK(std::isinf(ways[2][1]));
}

TEST_CASE("no way leads through a field that lies between", "[identity]") {
  // Two roads that only a field joins.
  const std::vector<Path> roads{path_in_metres({{0, 0}, {200, 0}}), path_in_metres({{300, 0}, {500, 0}})};
  const auto ways = ways_along(roads, {stop_at(0, 0), square_at(200, -50, 100), stop_at(500, 0)}, 20.0);
  CHECK(ways[0][1] == Approx(200.0).epsilon(way_tolerance));
  CHECK(ways[1][2] == Approx(200.0).epsilon(way_tolerance));
  CHECK(std::isinf(ways[0][2]));
}

TEST_CASE("no roads, no ways", "[identity]") {
  const auto ways = ways_along({}, {stop_at(0, 0), stop_at(10, 0)}, 20.0);
  CHECK(std::isinf(ways[0][1]));
  CHECK(ways_along({}, {}, 20.0).empty());
}

TEST_CASE("from middle to middle: across the field to the road, and along it", "[identity]") {
  //  +----+            o stack
  //  | .  |            |
  //  +----+            |
  //  ------------------+ road, 40 m south of the field
  const std::vector<Path> roads{path_in_metres({{-200, 0}, {600, 0}})};
  const std::vector<Shape> stops{square_at(0, 40, 100), stop_at(600, 60)};
  const auto ways = ways_from_middles(roads, stops, 100.0);
  CHECK(ways[0][1] == Approx(90.0 + 550.0 + 60.0).epsilon(way_tolerance));
  CHECK(ways[1][0] == Approx(ways[0][1]));
  CHECK(ways[0][0] == 0.0);
  // The reach counts from the field's edge, not from its middle.
  CHECK(std::isfinite(ways_from_middles(roads, {stops[0], stop_at(600, 10)}, 45.0)[0][1]));
  CHECK(std::isinf(ways_from_middles(roads, {stops[0], stop_at(600, 10)}, 35.0)[0][1]));
  CHECK(std::isinf(ways_from_middles({}, stops, 100.0)[0][1]));
}
