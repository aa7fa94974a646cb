// The same as tiny_search_test.cpp on two hundred problems; prints what was found.

#include "catch2/catch.hpp"
#include "enumerated.hpp"

using namespace aftercut;
using namespace aftercut::test;

TEST_CASE("two hundred times three years, three fields and three methods", "[cross]") {
  const Above above = searched_above(
      {.least_fields = 3, .most_fields = 3, .least_methods = 3, .most_methods = 3, .years = 3}, 0, 200, 4000);
  WARN(above.words());
  CHECK(above.wrong == 0);
  CHECK(above.mean <= 0.0005);
  CHECK(above.most <= 0.005);
}

TEST_CASE("two hundred times one year, three fields and four methods", "[cross]") {
  const Above above = searched_above(
      {.least_fields = 3, .most_fields = 3, .least_methods = 4, .most_methods = 4}, 0, 200, 4000);
  WARN(above.words());
  CHECK(above.wrong == 0);
  CHECK(above.mean <= 0.01);
  CHECK(above.most <= 0.06);
}

TEST_CASE("a few times one year, four fields and four methods", "[cross]") {
  const Above above = searched_above(
      {.least_fields = 4, .most_fields = 4, .least_methods = 4, .most_methods = 4}, 0, 6, 8000);
  WARN(above.words());
  CHECK(above.wrong == 0);
  CHECK(above.mean <= 0.01);
  CHECK(above.most <= 0.06);
}
