// Two hundred tiny farms and wet years: the bound, the exact optimum of the model that it stands on, the
// plan. In four parts, since each has its own time limit; a part prints what it found. The programmes hold
// the methods that the bound leaves in reach of the plan (oracle_test.cpp has a dozen with all of them).

#include <algorithm>

#include "aftercut/planner/search.hpp"
#include "catch2/catch.hpp"
#include "enumerated.hpp"
#include "held.hpp"
#include "tiny_farms.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

constexpr int evaluations = 20000, rounds = 150;
constexpr MipLimits limits{.seconds = 3.0, .relative_gap = 0.001};

Held held_of(const TinyCase& c) {
  const planner::Bound bound = planner::lower_bound({&c.model, c.plan_cents, rounds, 1, {}});
  const RelaxedOptimum o =
      relaxed_optimum(c.model, methods_in_reach(c.model, bound, c.plan_cents), c.plan_cents, limits);
  return {bound.cents, bound.without_prices, o.cents, o.proven_cents, c.plan_cents, o.closed};
}

/// However far below the optimum the bound lies: prices are no proof where a day too few hits every field.
bool in_order(Held h) {
  h.closed = false;
  return faults_of(h).empty();
}

struct Ratios {
  std::vector<double> proven, bound, plan, most_of_plan;

  void add(const Held& h) {
    proven.push_back(h.bound / h.proven);
    most_of_plan.push_back(h.plan / h.proven);
    if (!h.closed) return;
    bound.push_back(h.bound / h.optimum);
    plan.push_back(h.plan / h.optimum);
  }
  [[nodiscard]] std::string words() const {
    return "\n" + words_of("bound / optimum, where CBC closed", spread_of(bound)) +
           words_of("plan / optimum, where CBC closed", spread_of(plan)) +
           words_of("plan / what CBC proved, all", spread_of(most_of_plan));
  }
};

void hold(std::uint64_t from, std::uint64_t to) {
  Ratios ratios;
  for (std::uint64_t k = from; k < to; ++k) {
    const TinyCase c = tiny_case(tiny_problem(k), evaluations);
    const Held h = held_of(c);
    CAPTURE(k, words_of(*c.problem), h.bound, h.proven, h.optimum, h.plan);
    CHECK(in_order(h));
    ratios.add(h);
  }
  WARN(ratios.words());
  CHECK(ratios.bound.size() >= (to - from) / 2);  // what CBC closes hangs on the machine
}

}  // namespace

TEST_CASE("tiny farms 1 to 50", "[.long][part a][cross]") { hold(0, 50); }
TEST_CASE("tiny farms 51 to 100", "[.long][part b][cross]") { hold(50, 100); }
TEST_CASE("tiny farms 101 to 150", "[.long][part c][cross]") { hold(100, 150); }
TEST_CASE("tiny farms 151 to 200", "[.long][part d][cross]") { hold(150, 200); }

TEST_CASE("three years: bound, optimum, lists chosen in hindsight, the best plan and the searched one",
          "[.long][part e][cross]") {
  constexpr TinyShape shape{
      .least_fields = 3, .most_fields = 3, .least_methods = 3, .most_methods = 3, .years = 3};
  Ratios ratios;
  for (std::uint64_t k = 0; k < 40; ++k) {
    const TinyCase c = tiny_case(tiny_problem(k, shape), 4000);
    const Enumerated all = every_plan(*c.table);
    const Held h = held_of(c);
    CAPTURE(k, words_of(*c.problem), h.bound, h.proven, h.optimum, h.plan, all.own_lists, all.plan);
    CHECK(in_order(h));
    CHECK(h.bound <= static_cast<double>(all.own_lists));
    CHECK(h.proven <= static_cast<double>(all.own_lists) + 2.0);
    CHECK(all.own_lists <= all.plan);
    CHECK(static_cast<double>(all.plan) <= h.plan);
    ratios.add(h);
  }
  WARN(ratios.words());
}

TEST_CASE("as the demo is, with everything that the bound hopes for: still below optimum and plan",
          "[.long][part e][cross]") {
  Ratios ratios;
  for (std::uint64_t k = 0; k < 20; ++k) {
    const TinyCase c = tiny_case(
        tiny_problem(k, {.least_fields = 4, .most_fields = 4, .most_methods = 5, .as_the_demo = true}), 4000);
    const Held h = held_of(c);
    CAPTURE(k, words_of(*c.problem), h.bound, h.proven, h.optimum, h.plan);
    CHECK(in_order(h));
    ratios.add(h);
  }
  WARN(ratios.words());
}
