// A plan made again after changes: never worse than the plan kept, the same on any number of threads, and
// told as it is.

#include "aftercut/scenario/replan.hpp"

#include <algorithm>

#include "aftercut/planner/search.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

const farm::Problem& before() {
  static const farm::Problem p = [] {
    farm::Problem made = test::small_problem(6);
    made.farm.fields[2].locked.reset();
    return made;
  }();
  return p;
}

const plan::Decision& stands() {
  static const plan::Decision d = [] {
    const dispatch::Table table = dispatch::make_table(before(), 4);
    return planner::search({.table = &table,
                            .years = planner::fold(table.drivers.size()).search,
                            .seed = 4,
                            .threads = 2,
                            .evaluations = 600})
        .decision;
  }();
  return d;
}

plan::Replanned again(const farm::Problem& after, int threads = 2) {
  return scenario::replan({.before = &before(),
                           .decision = &stands(),
                           .after = &after,
                           .seed = 4,
                           .threads = threads,
                           .evaluations = 200});
}

}  // namespace

TEST_CASE("without a change the plan kept is the plan that stood", "[identity]") {
  const plan::Replanned r = again(before());
  CHECK(r.kept.cost_cents == r.before.cost_cents);
  CHECK(r.kept.chance == r.before.chance);
  CHECK(r.replaced.empty());
  CHECK(r.no_method.empty());
  for (const auto& c : r.chances) CHECK(c.kept == c.before);
}

TEST_CASE("planning again is never worse in the years that it is searched on", "[identity]") {
  for (const double times : {0.5, 2.0, 4.0}) {
    farm::Problem dear = before();
    dear.farm.prices.diesel_per_l = Money{times * before().farm.prices.diesel_per_l.value()};
    const plan::Replanned r = again(dear);
    const dispatch::Table table = dispatch::make_table(dear, 4);
    const auto years = planner::fold(table.drivers.size()).search;
    const auto costs = planner::costs_of(table, {stands(), r.decision}, years, 2);
    CHECK(costs[1] <= costs[0]);
  }
}

TEST_CASE("a method that is ruled out is replaced when the plan is kept, and left when planned again",
          "[identity]") {
  farm::Problem barred = before();
  const int method = stands().method[0];
  REQUIRE(method != plan::none);
  barred.farm.fields[0].not_allowed.push_back(
      {before().farm.book.recipes[static_cast<std::size_t>(method)].id, "test"});
  const plan::Replanned r = again(barred);
  REQUIRE_FALSE(r.replaced.empty());
  CHECK(r.replaced[0].field == 0);
  CHECK(r.replaced[0].from == method);
  CHECK(r.decision.method[0] != method);
  CHECK(std::ranges::any_of(r.changes, [](const auto& c) { return c.field == 0; }));
}

TEST_CASE("a field fixed to a method that it cannot take has none, with the reasons", "[identity]") {
  farm::Problem fixed = before();
  const method::Recipe& recipe = before().farm.book.recipes.front();
  fixed.farm.fields[1].locked = recipe.id;
  fixed.farm.fields[1].not_allowed.push_back({recipe.id, "the landlord does not want it"});
  const plan::Replanned r = again(fixed);
  REQUIRE(r.no_method.size() == 1);
  CHECK(r.no_method[0].field == 1);
  CHECK(r.no_method[0].fixed == 0);
  REQUIRE_FALSE(r.no_method[0].why_not.empty());
  CHECK(r.decision.method[1] == plan::none);
}

TEST_CASE("the same answer on one thread and on three", "[identity]") {
  farm::Problem sure = before();
  sure.farm.target.wanted_chance = 0.95;
  sure.farm.target.risk = farm::Risk::both;
  const plan::Replanned one = again(sure, 1), three = again(sure, 3);
  CHECK(one.decision == three.decision);
  CHECK(one.after.cost_cents == three.after.cost_cents);
}

TEST_CASE("a decision found otherwise is told without a search", "[identity]") {
  plan::Decision other = stands();
  std::reverse(other.autumn_order.begin(), other.autumn_order.end());
  const plan::Replanned r = scenario::replan_with(
      {.before = &before(), .decision = &stands(), .after = &before(), .seed = 4, .threads = 2}, other);
  CHECK(r.decision == other);
  CHECK(r.changes.empty());
}

TEST_CASE("a whole plan can go on from another, and is never worse by what is searched", "[identity]") {
  scenario::SearchOptions options{.seed = 4, .threads = 2, .evaluations = 100, .progress = {}};
  options.start = stands();
  const plan::PlannedYears planned = scenario::make_plan(before(), options);
  const dispatch::Table table = dispatch::make_table(before(), 4);
  const auto costs = planner::costs_of(table, {stands(), planned.plan.decision},
                                       planner::fold(table.drivers.size()).search, 2);
  CHECK(costs[1] <= costs[0]);
}
