#include "oracle.hpp"

#include <algorithm>

#include "aftercut/planner/search.hpp"
#include "catch2/catch.hpp"
#include "quick_cases.hpp"
#include "tiny_farms.hpp"

using namespace aftercut;
using namespace aftercut::test;

TEST_CASE("a small programme whose optimum is known", "[cross]") {
  // Two of three sacks, 4, 3 and 2 kg worth 5, 4 and 1, carried in 6 kg: the first and the last, or the two
  // last.
  Mip mip;
  const int a = mip.column(-5.0, 1.0, true), b = mip.column(-4.0, 1.0, true), c = mip.column(-1.0, 1.0, true);
  mip.at_most(6.0, {{a, 4.0}, {b, 3.0}, {c, 2.0}});
  mip.add_constant(100.0);
  const MipEnd end = mip.solve({});
  REQUIRE(end.found);
  CHECK(end.cost == Approx(94.0));
  CHECK(end.proven == Approx(94.0));
  CHECK(end.solution == std::vector<double>{1.0, 0.0, 1.0});
  const MipEnd none = mip.solve({.cutoff = 93.0});
  CHECK_FALSE(none.found);
  CHECK(none.proven == Approx(93.0));
}

TEST_CASE("a dozen tiny farms: the bound is at most the optimum of its own model, that at most the plan",
          "[cross]") {
  std::size_t closed = 0, shared = 0;
  for (const Solved& s : quick_cases()) {
    CAPTURE(s.k, words_of(*s.tiny.problem), s.held.bound, s.held.proven, s.held.optimum, s.held.plan);
    CHECK(faults_of(s.held).empty());
    if (s.held.closed) ++closed;
    if (s.held.bound > s.held.without_prices + 100.0) ++shared;  // a whole dollar that only prices prove
  }
  CHECK(closed >= 10);
  CHECK(shared >= 4);
}

TEST_CASE("the optimum of the relaxed model falls when more is there and rises when less is", "[identity]") {
  const Solved& s = quick_cases()[3];
  const auto with = [&](double minutes) {
    planner::BoundModel m = s.tiny.model;
    for (double& there : m.resources.minutes) there *= minutes;
    return relaxed_optimum(m, every_method(m), 2.0 * s.held.plan, {.seconds = 20.0}).cents;
  };
  const double less = with(0.6), same = with(1.0), more = with(1.5);
  CHECK(same == Approx(s.held.optimum).epsilon(0.001));
  CHECK(less > same + 100.0);
  CHECK(more < same + 1.0);
}
