#include "aftercut/scenario/base_plan.hpp"

#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

plan::PlannedYears planned_with(const farm::Problem& p, int threads, std::uint64_t seed = 1) {
  return scenario::make_plan(p, {.seed = seed, .threads = threads, .evaluations = 80, .progress = {}});
}

}  // namespace

TEST_CASE("the plan does not depend on the number of threads", "[identity]") {
  const farm::Problem p = test::small_problem(4);
  const auto one = planned_with(p, 1), two = planned_with(p, 2);
  CHECK(one.plan.decision == two.plan.decision);
  CHECK(one.runs == two.runs);
  CHECK(one.plan.cost_cents == two.plan.cost_cents);
}

TEST_CASE("a plan carries every method of every field with its numbers or its reasons", "[identity]") {
  const farm::Problem p = test::small_problem(4);
  const auto planned = planned_with(p, 1);
  REQUIRE(planned.plan.fields.size() == p.farm.fields.size());
  for (const auto& field : planned.plan.fields) {
    REQUIRE(field.methods.size() == p.farm.book.recipes.size());
    for (const auto& m : field.methods) CHECK(m.possible == m.why_not.empty());
    CHECK(field.methods[static_cast<std::size_t>(field.chosen.method)].possible);
    CHECK_FALSE(field.chosen.because.empty());
  }
  CHECK(planned.plan.fields[2].chosen.locked);
  const auto& mine =
      planned.plan.fields[2].methods[static_cast<std::size_t>(planned.plan.fields[2].chosen.method)];
  CHECK(mine.farm_cost == planned.plan.cost_cents);  // the chosen method's farm cost is the plan's
}

TEST_CASE("hours used never exceed hours there are", "[identity]") {
  const auto planned = planned_with(test::small_problem(4), 1);
  double used = 0.0;
  for (const auto& r : planned.plan.resources)
    for (const auto& w : r.weeks) {
      CHECK(w.used_h <= w.available_h + 1e-9);
      used += w.used_h;
    }
  CHECK(used > 0.0);
}
