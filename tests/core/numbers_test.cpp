// Interpolation, quantiles, means and rounding.
#include "aftercut/core/numbers.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/core/random.hpp"
#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using aftercut::test::check;
using aftercut::test::Kind;

TEST_CASE("interpolation: at nodes, between them, constant beyond", "[derived]") {
  const std::array<Node, 3> nodes{{{0.0, 1.0}, {10.0, 3.0}, {20.0, -1.0}}};
  check({{"left of all", "derived", Kind::derived, 1.0, interpolate(nodes, -5.0), 0.0},
         {"first node", "derived", Kind::derived, 1.0, interpolate(nodes, 0.0), 0.0},
         {"quarter", "derived", Kind::derived, 1.5, interpolate(nodes, 2.5), 1e-15},
         {"middle node", "derived", Kind::derived, 3.0, interpolate(nodes, 10.0), 0.0},
         {"falling", "derived", Kind::derived, 1.0, interpolate(nodes, 15.0), 1e-15},
         {"right of all", "derived", Kind::derived, -1.0, interpolate(nodes, 99.0), 0.0}});
  const std::array<Node, 1> one{{{4.0, 7.0}}};
  CHECK(interpolate(one, -1.0) == 7.0);
  CHECK(interpolate(one, 9.0) == 7.0);
  CHECK_THROWS_AS(interpolate({}, 1.0), InternalError);
}

TEST_CASE("quantiles by definition 7", "[derived]") {
  // h = (n-1) p on the sorted values 1 2 4 8.
  const std::vector<double> v{4.0, 1.0, 8.0, 2.0};
  check({{"p 0", "HyndmanFan1996 definition 7", Kind::derived, 1.0, quantile(v, 0.0), 0.0},
         {"p 0.1, h 0.3", "HyndmanFan1996 definition 7", Kind::derived, 1.3, quantile(v, 0.1), 1e-12},
         {"median, h 1.5", "HyndmanFan1996 definition 7", Kind::derived, 3.0, quantile(v, 0.5), 1e-12},
         {"p 0.9, h 2.7", "HyndmanFan1996 definition 7", Kind::derived, 6.8, quantile(v, 0.9), 1e-12},
         {"p 1", "HyndmanFan1996 definition 7", Kind::derived, 8.0, quantile(v, 1.0), 0.0},
         {"one value", "HyndmanFan1996 definition 7", Kind::derived, 5.0, quantile({5.0}, 0.37), 0.0}});
  CHECK_THROWS_AS(quantile({}, 0.5), InternalError);
  CHECK_THROWS_AS(quantile({1.0}, -0.1), InternalError);
  CHECK_THROWS_AS(quantile({1.0}, 1.1), InternalError);
}

TEST_CASE("quantiles rise with p and stay within the values", "[identity]") {
  Draws draws{7, stream_of("quantiles")};
  std::vector<double> v;
  for (int i = 0; i < 37; ++i) v.push_back(draws.normal());
  double last = -1e9;
  for (int i = 0; i <= 100; ++i) {
    const double q = quantile(v, i / 100.0);
    CHECK(q >= last);
    last = q;
  }
  CHECK(quantile(v, 0.0) == *std::min_element(v.begin(), v.end()));
  CHECK(last == *std::max_element(v.begin(), v.end()));
}

TEST_CASE("means, cents and minutes", "[derived]") {
  const std::array<double, 3> three{1.0, 2.0, 6.0};
  check({{"mean", "derived", Kind::derived, 3.0, mean(three), 1e-15}});
  CHECK_THROWS_AS(mean({}), InternalError);
  check({{"deviation", "derived", Kind::derived, std::sqrt(7.0), deviation(three), 1e-15},
         {"standard error", "derived", Kind::derived, std::sqrt(7.0 / 3.0), standard_error(three), 1e-15}});
  CHECK(deviation(std::array{4.0}) == 0.0);
  CHECK(standard_error(std::array{4.0}) == 0.0);
  CHECK(to_cents(12.345) == 1235);
  CHECK(to_cents(0.125) == 13);
  CHECK(to_cents(-0.125) == -13);
  CHECK(to_cents(0.0) == 0);
  CHECK(ceil_minutes(1.0) == 60);
  CHECK(ceil_minutes(1.0 + 1e-10) == 60);
  CHECK(ceil_minutes(1.0001) == 61);
  CHECK(ceil_minutes(0.1 + 0.2) == 18);
  CHECK(ceil_minutes(0.0) == 0);
}
