// The search against every choice of methods and lists, on problems small enough to dispatch them all.

#include "catch2/catch.hpp"
#include "enumerated.hpp"

using namespace aftercut;
using namespace aftercut::test;

TEST_CASE("three years, three fields: the search comes within half a percent of the best of all plans",
          "[cross]") {
  const Above above = searched_above(
      {.least_fields = 3, .most_fields = 3, .least_methods = 3, .most_methods = 3, .years = 3}, 0, 20, 4000);
  CAPTURE(above.words());
  CHECK(above.wrong == 0);
  CHECK(above.most <= 0.005);
  CHECK(above.same >= 15);
}

TEST_CASE("one year, three fields: the search against the best of all plans", "[cross]") {
  const Above above = searched_above(
      {.least_fields = 3, .most_fields = 3, .least_methods = 5, .most_methods = 5}, 0, 6, 4000);
  CAPTURE(above.words());
  CHECK(above.wrong == 0);
  CHECK(above.most <= 0.005);
}

TEST_CASE("a search that only takes what is cheapest alone is caught", "[cross]") {
  const Above above = searched_above(
      {.least_fields = 3, .most_fields = 3, .least_methods = 3, .most_methods = 3, .years = 3}, 0, 20, 0);
  CAPTURE(above.words());
  CHECK(above.wrong == 0);
  CHECK(above.most > 0.005);
}

TEST_CASE("with wishes the search comes as near to them as any plan, at hardly more cost", "[cross]") {
  const Wished w = searched_with_wishes({.least_fields = 3,
                                         .most_fields = 3,
                                         .least_methods = 3,
                                         .most_methods = 3,
                                         .years = 3,
                                         .wanted_chance = 0.67},
                                        0, 20, 4000);
  CAPTURE(w.any_short, w.as_little_short, w.most_above);
  CHECK(w.count == 20);
  CHECK(w.wrong == 0);
  CHECK(w.as_little_short >= 18);
  CHECK(w.most_above <= 0.01);
}
