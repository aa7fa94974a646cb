#include "aftercut/geo/cuts.hpp"

#include <numeric>

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "metres.hpp"

using namespace aftercut;
using namespace aftercut::geo;
using test::field_in_metres;
using test::path_in_metres;

namespace {

const std::vector<Point> square_corners{{0, 0}, {300, 0}, {300, 300}, {0, 300}, {0, 0}};
const std::vector<Point> bent_corners{{0, 0}, {600, 0}, {600, 150}, {150, 150}, {150, 400}, {0, 400}, {0, 0}};

double hectares(const std::vector<Shape>& pieces) {
  return std::accumulate(pieces.begin(), pieces.end(), 0.0,
                         [](double sum, const Shape& s) { return sum + geodesic_area(s).value(); });
}

}  // namespace

TEST_CASE("levees part a field into checks that together are the field, from the north", "[identity]") {
  const Shape whole = field_in_metres(square_corners);
  const auto pieces = cut_along(
      whole, {path_in_metres({{-2, 100}, {150, 110}, {302, 100}}), path_in_metres({{0, 220}, {300, 200}})},
      6.0);
  REQUIRE(pieces.size() == 3);
  CHECK(hectares(pieces) == Approx(geodesic_area(whole).value()).epsilon(1e-6));
  CHECK(label_point(pieces[0]).y > label_point(pieces[1]).y);
  CHECK(label_point(pieces[1]).y > label_point(pieces[2]).y);
}

TEST_CASE("a levee drawn a little short of the edge parts, one that ends inside does not", "[identity]") {
  const Shape whole = field_in_metres(square_corners);
  CHECK(cut_along(whole, {path_in_metres({{5, 100}, {295, 100}})}, 6.0).size() == 2);
  CHECK(cut_along(whole, {path_in_metres({{5, 100}, {200, 100}})}, 6.0) == std::vector<Shape>{whole});
  CHECK(cut_along(whole, {}, 6.0) == std::vector<Shape>{whole});
  CHECK(cut_along(whole, {path_in_metres({{400, 0}, {400, 300}})}, 6.0) == std::vector<Shape>{whole});
  CHECK_THROWS_AS(cut_along(Shape{}, {}, 6.0), InternalError);
}

TEST_CASE("a hole stays a hole in its piece", "[identity]") {
  Shape whole = field_in_metres(square_corners);
  whole.polygons[0].holes.push_back(
      path_in_metres({{100, 200}, {100, 250}, {150, 250}, {150, 200}, {100, 200}}));
  const auto pieces = cut_along(whole, {path_in_metres({{0, 120}, {300, 120}})}, 6.0);
  REQUIRE(pieces.size() == 2);
  CHECK(pieces[0].polygons[0].holes.size() == 1);
  CHECK(pieces[1].polygons[0].holes.empty());
  CHECK(hectares(pieces) == Approx(geodesic_area(whole).value()).epsilon(1e-6));
}

TEST_CASE("an L is cut along either edge of its bend, a rectangle nowhere", "[identity]") {
  const auto cuts = cuts_at_bends(field_in_metres(bent_corners), 30.0, 6);
  REQUIRE(cuts.size() == 2);
  for (const Path& cut : cuts) {
    const auto pieces = cut_along(field_in_metres(bent_corners), {cut}, 1.0);
    REQUIRE(pieces.size() == 2);
    CHECK(hectares(pieces) == Approx(geodesic_area(field_in_metres(bent_corners)).value()).epsilon(1e-6));
  }
  CHECK(cuts_at_bends(field_in_metres(square_corners), 30.0, 6).empty());
  CHECK(cuts_at_bends(field_in_metres(bent_corners), 95.0, 6).empty());
  CHECK(cuts_at_bends(field_in_metres(bent_corners), 30.0, 1).size() == 1);
}

TEST_CASE("the way round in which an outline is drawn does not matter to its bends", "[identity]") {
  std::vector<Point> backwards{bent_corners.rbegin(), bent_corners.rend()};
  CHECK(cuts_at_bends(field_in_metres(backwards), 30.0, 6).size() == 2);
}
