// Boundaries that cross themselves, and fields that lie on each other.
#include <limits>

#include "aftercut/geo/layer.hpp"
#include "catch2/catch.hpp"
#include "drawn.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::geo;
using namespace aftercut::test;
using Catch::Contains;

namespace {
double ha(const Path& ring) { return geodesic_area(one(ring)).value(); }
}  // namespace

TEST_CASE("a sound shape comes back as it was", "[identity]") {
  const Shape field{{{l_ring({-122.0, 39.0}, 0.003), {square({-121.999, 39.001}, 0.001)}}},
                    {{{0.0, 0.0}, {1.0, 1.0}}},
                    {{2.0, 3.0}}};
  const Repaired r = repair(field);
  CHECK(r.shape == field);
  CHECK_FALSE(r.what);
}

TEST_CASE("a bow-tie becomes its two triangles, with the place of the crossing", "[derived]") {
  //  3   2
  //  |\ /|
  //  | X |
  //  |/ \|
  //  0   1     drawn 0 - 2 - 1 - 3
  const Point at{-122.0, 39.2};
  const Repaired r = repair(one(ring(at, 0.01, {{0, 0}, {1, 1}, {1, 0}, {0, 1}})));
  REQUIRE(r.what);
  CHECK_THAT(*r.what, Contains("self-crossing boundary near -121.99500, 39.20500"));
  CHECK_THAT(*r.what, Contains("ha"));
  CHECK(r.shape.polygons.size() == 2);
  const double triangles =
      ha(ring(at, 0.01, {{0, 0}, {0.5, 0.5}, {0, 1}})) + ha(ring(at, 0.01, {{1, 0}, {1, 1}, {0.5, 0.5}}));
  check({{"both triangles", "derived", Kind::derived, triangles, geodesic_area(r.shape).value(), 1e-6}});
  CHECK_FALSE(repair(r.shape).what);
}

TEST_CASE("parts that lie on each other count once", "[derived]") {
  Shape two = one(square({-122.0, 39.0}, 0.01));
  two.polygons.push_back({square({-121.995, 39.0}, 0.01), {}});
  const Repaired r = repair(two);
  REQUIRE(r.what);
  check({{"union of two squares that share a half", "derived", Kind::derived,
          ha(ring({-122.0, 39.0}, 0.01,
                  {{0, 0}, {0.5, 0}, {1, 0}, {1.5, 0}, {1.5, 1}, {1, 1}, {0.5, 1}, {0, 1}})),
          geodesic_area(r.shape).value(), 1e-6}});
}

TEST_CASE("a spike goes, a hole outside goes, flat rings are named", "[derived]") {
  const Point at{-122.0, 39.0};
  const Repaired spike = repair(one(ring(at, 0.01, {{0, 0}, {1, 0}, {1, 1}, {1, 2}, {1, 1}, {0, 1}})));
  REQUIRE(spike.what);
  check({{"without the spike", "derived", Kind::derived, ha(square(at, 0.01)),
          geodesic_area(spike.shape).value(), 1e-6}});

  const Repaired away = repair(one(square(at, 0.01), {square({-121.9, 39.0}, 0.01)}));
  REQUIRE(away.what);
  CHECK_THAT(*away.what, Contains("hole outside its boundary"));

  Shape flat = one(square(at, 0.01));
  flat.polygons.push_back({ring(at, 0.01, {{0, 0}, {1, 1}}), {}});
  const Repaired dropped = repair(flat);
  REQUIRE(dropped.what);
  CHECK_THAT(*dropped.what, Contains("fewer than three corners"));
  CHECK(dropped.shape.polygons.size() == 1);
}

TEST_CASE("nothing is left of a boundary without an inside", "[identity]") {
  const Repaired r = repair(one(ring({-122.0, 39.0}, 0.01, {{0, 0}, {1, 0}, {2, 0}})));
  REQUIRE(r.what);
  CHECK(r.shape.polygons.empty());
}

TEST_CASE("overlaps are found with their area, in order, above the least", "[derived]") {
  //  +--+--+--+
  //  |A |AB|B |      A and B share a strip, C touches B only, D is B's inner square
  //  +--+--+--+
  const std::vector<Shape> fields{one(square({-122.0, 39.0}, 0.01)), one(square({-121.992, 39.0}, 0.01)),
                                  one(square({-121.982, 39.0}, 0.01)),
                                  one(square({-121.988, 39.004}, 0.002))};
  const auto found = overlaps(fields, Hectare{0.01});
  REQUIRE(found.size() == 2);
  CHECK((found[0].a == 0 && found[0].b == 1));
  CHECK((found[1].a == 1 && found[1].b == 3));
  check({{"strip", "derived", Kind::derived,
          ha(ring({-121.992, 39.0}, 0.002, {{0, 0}, {1, 0}, {1, 5}, {0, 5}})), found[0].area.value(), 1e-6},
         {"inner square", "derived", Kind::derived, ha(square({-121.988, 39.004}, 0.002)),
          found[1].area.value(), 1e-6}});
  CHECK(overlaps(fields, Hectare{10.0}).size() == 1);
  CHECK(overlaps(fields, Hectare{100.0}).empty());
  CHECK(overlaps({}, Hectare{0.0}).empty());
  CHECK(overlaps({Shape{}, fields[0], Shape{}}, Hectare{0.0}).empty());
}

TEST_CASE("overlaps of faulty shapes are found, and agree with all pairs", "[cross]") {
  std::vector<Shape> fields{one(ring({-122.0, 39.0}, 0.01, {{0, 0}, {1, 1}, {1, 0}, {0, 1}}))};
  for (int i = 0; i < 12; ++i)
    fields.push_back(one(l_ring({-122.01 + 0.004 * i, 39.0 + 0.002 * (i % 3)}, 0.003)));
  const auto all = overlaps(fields, Hectare{1e-6});
  std::vector<std::pair<std::size_t, std::size_t>> tree, pairs;
  for (const Overlap& o : all) tree.emplace_back(o.a, o.b);
  for (std::size_t a = 0; a < fields.size(); ++a)
    for (std::size_t b = a + 1; b < fields.size(); ++b)
      if (!overlaps({fields[a], fields[b]}, Hectare{1e-6}).empty()) pairs.emplace_back(a, b);
  CHECK(tree == pairs);
  CHECK(tree.size() > 5);
}
