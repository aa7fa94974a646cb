#include "aftercut/geo/network.hpp"

#include <cmath>

#include "catch2/catch.hpp"

using namespace aftercut::geo;

namespace {

constexpr Point corner{-122.0, 39.2};
constexpr double east = 86.4e3, north = 111.0e3;  // metres a degree there, near enough for a shape

Point at(double x, double y) { return {corner.x + x / east, corner.y + y / north}; }
Path path(const std::vector<Point>& metres) {
  Path out;
  for (const Point& p : metres) out.push_back(at(p.x, p.y));
  return out;
}
Shape point(double x, double y) { return {{}, {}, {at(x, y)}}; }
Shape square(double x, double y, double side) {
  return {{{path({{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}, {x, y}}), {}}}, {}, {}};
}
constexpr double within = 0.005;  // of the local metres above

}  // namespace

TEST_CASE("the way along roads, not as the crow flies", "[identity]") {
  //  a           b
  //  |           |
  //  +-----+-----+
  const std::vector<Path> roads{path({{0, 300}, {0, 0}, {500, 0}}), path({{500, 0}, {500, 300}})};
  const auto ways = ways_along(roads, {point(0, 300), point(500, 300)}, 20.0);
  CHECK(ways[0][1] == Approx(1100.0).epsilon(within));
  CHECK(ways[0][1] == Approx(ways[1][0]));
  CHECK(ways[0][0] == 0.0);
}

TEST_CASE("roads that cross without a common corner meet; the shorter way is taken", "[identity]") {
  const std::vector<Path> roads{path({{-100, 0}, {400, 0}}), path({{300, -100}, {300, 200}}),
                                path({{0, 0}, {0, 900}, {300, 900}, {300, 200}})};
  const auto ways = ways_along(roads, {point(0, 0), point(300, 200)}, 20.0);
  CHECK(ways[0][1] == Approx(500.0).epsilon(within));
}

TEST_CASE("ends two metres apart meet, ends ten metres apart do not", "[identity]") {
  const std::vector<Shape> stops{point(0, 0), point(400, 0)};
  const auto near = ways_along({path({{0, 0}, {200, 0}}), path({{201.5, 0}, {400, 0}})}, stops, 20.0);
  CHECK(near[0][1] == Approx(400.0).epsilon(within));
  const auto far = ways_along({path({{0, 0}, {200, 0}}), path({{210, 0}, {400, 0}})}, stops, 20.0);
  CHECK(std::isinf(far[0][1]));
}

TEST_CASE("a field is reached from a road nearby, not from one beyond its reach", "[identity]") {
  const std::vector<Path> roads{path({{0, 0}, {1000, 0}})};
  const std::vector<Shape> stops{square(0, 40, 100), square(700, -160, 100), square(300, 400, 50)};
  const auto ways = ways_along(roads, stops, 100.0);
  CHECK(std::isfinite(ways[0][1]));
  CHECK(ways[0][1] >= 600.0 * (1.0 - within));            // along the road between the two
  CHECK(ways[0][1] <= (800.0 + 100.0) * (1.0 + within));  // at most from far end to far end and off the road
  CHECK(std::isinf(ways[0][2]));
  CHECK(std::isinf(ways[2][1]));
}

TEST_CASE("no way leads through a field that lies between", "[identity]") {
  // Two roads that only a field joins.
  const std::vector<Path> roads{path({{0, 0}, {200, 0}}), path({{300, 0}, {500, 0}})};
  const auto ways = ways_along(roads, {point(0, 0), square(200, -50, 100), point(500, 0)}, 20.0);
  CHECK(ways[0][1] == Approx(200.0).epsilon(within));
  CHECK(ways[1][2] == Approx(200.0).epsilon(within));
  CHECK(std::isinf(ways[0][2]));
}

TEST_CASE("no roads, no ways", "[identity]") {
  const auto ways = ways_along({}, {point(0, 0), point(10, 0)}, 20.0);
  CHECK(std::isinf(ways[0][1]));
  CHECK(ways_along({}, {}, 20.0).empty());
}
