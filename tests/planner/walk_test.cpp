#include "aftercut/planner/walk.hpp"

#include <numeric>

#include "aftercut/planner/search.hpp"
#include "catch2/catch.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

planner::Walked walked(const dispatch::Table& t, const plan::Decision& start, int moves, std::uint64_t seed) {
  return planner::walk(
      {.table = &t, .years = {0, 1, 2, 3, 4, 5}, .start = start, .moves = moves, .draws = Draws{seed, 1}});
}

}  // namespace

TEST_CASE("a walk ends cheaper than it began, by the dispatch's own count", "[identity]") {
  const farm::Problem p = test::open_problem(6);
  const dispatch::Table t = dispatch::make_table(p, 1);
  Draws draws{3, stream_of("start")};
  const std::vector<std::size_t> years{0, 1, 2, 3, 4, 5};
  for (int k = 0; k < 5; ++k) {
    const plan::Decision start = test::random_decision(t, draws);
    const planner::Walked w = walked(t, start, 400, static_cast<std::uint64_t>(k));
    const auto costs = planner::costs_of(t, {start, w.decision}, years, 1);
    CHECK(costs[1] < costs[0]);
    CHECK(w.cents == Approx(static_cast<double>(costs[1])).epsilon(0.01));
    CHECK(w.runs > 0);
    CHECK(w.skipped > 0);
  }
}

TEST_CASE("the same walk twice, another with other draws, and none without moves", "[identity]") {
  const farm::Problem p = test::open_problem(6);
  const dispatch::Table t = dispatch::make_table(p, 1);
  Draws draws{4, stream_of("start")};
  const plan::Decision start = test::random_decision(t, draws);
  const planner::Walked a = walked(t, start, 200, 1), b = walked(t, start, 200, 1);
  CHECK(a.decision == b.decision);
  CHECK(a.cents == b.cents);
  CHECK(walked(t, start, 0, 1).decision == start);
}

TEST_CASE("a walk keeps to methods that are possible", "[identity]") {
  farm::Problem p = test::open_problem(6);
  p.farm.fields[1].locked = MethodId{"leave"};
  const dispatch::Table t = dispatch::make_table(p, 1);
  Draws draws{5, stream_of("start")};
  const planner::Walked w = walked(t, test::random_decision(t, draws), 400, 1);
  for (std::size_t f = 0; f < w.decision.method.size(); ++f)
    if (const int m = w.decision.method[f]; m != plan::none)
      CHECK(t.why_not[f][static_cast<std::size_t>(m)].empty());
  CHECK(p.farm.book.recipes[static_cast<std::size_t>(w.decision.method[1])].id.value == "leave");
}
