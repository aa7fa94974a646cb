#include "aftercut/planner/search.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

/// The least cost over every choice of methods for two fields, by brute force, lists as given.
std::int64_t least_by_enumeration(const dispatch::Table& t, plan::Decision d, std::size_t a, std::size_t b,
                                  const std::vector<std::size_t>& years) {
  std::int64_t least = std::numeric_limits<std::int64_t>::max();
  const auto open = [&](std::size_t f, std::size_t r) { return t.why_not[f][r].empty(); };
  for (std::size_t x = 0; x < t.why_not[a].size(); ++x)
    for (std::size_t y = 0; y < t.why_not[b].size(); ++y) {
      if (!open(a, x) || !open(b, y)) continue;
      d.method[a] = static_cast<int>(x);
      d.method[b] = static_cast<int>(y);
      least = std::min(least, planner::costs_of(t, {d}, years, 1).front());
    }
  return least;
}

}  // namespace

TEST_CASE("the search ends no worse than the cheapest-alone start", "[identity]") {
  const farm::Problem p = test::small_problem(6);
  const dispatch::Table t = dispatch::make_table(p, 1);
  const planner::Folds folds = planner::fold(6);
  const planner::Found found = planner::search(
      {.table = &t, .years = folds.search, .seed = 1, .threads = 1, .evaluations = 150, .progress = {}});
  plan::Decision start = found.decision;
  start.method = found.cheapest_alone;
  std::iota(start.autumn_order.begin(), start.autumn_order.end(), 0);
  start.spring_order = start.autumn_order;
  CHECK(found.cost <= planner::costs_of(t, {start}, folds.search, 1).front());
  CHECK(found.cost == planner::costs_of(t, {found.decision}, folds.search, 1).front());
}

TEST_CASE("two open fields: the search comes within 2 % of every choice tried", "[cross]") {
  farm::Problem p = test::small_problem(4);
  p.farm.fields[0].locked = MethodId{"chop_disk"};
  p.farm.fields[4].locked = MethodId{"leave"};
  const dispatch::Table t = dispatch::make_table(p, 1);
  const std::vector<std::size_t> years{0, 1, 2, 3};
  const planner::Found found = planner::search(
      {.table = &t, .years = years, .seed = 1, .threads = 1, .evaluations = 300, .progress = {}});
  const std::int64_t least = least_by_enumeration(t, found.decision, 1, 3, years);
  CHECK(found.cost >= least);  // same lists: nothing beats enumeration
  CHECK(static_cast<double>(found.cost - least) <= 0.02 * std::abs(static_cast<double>(least)));
}

TEST_CASE("years are split in two, and one year serves both", "[identity]") {
  const planner::Folds many = planner::fold(5);
  CHECK(many.search == std::vector<std::size_t>{0, 2, 4});
  CHECK(many.shown == std::vector<std::size_t>{1, 3});
  CHECK_FALSE(many.in_sample);
  const planner::Folds one = planner::fold(1);
  CHECK(one.search == one.shown);
  CHECK(one.in_sample);
}
