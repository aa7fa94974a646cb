// Outcomes that are nobody's mistake: each has a name, and the closest plan is still made.

#include <algorithm>

#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

plan::Plan planned(const farm::Problem& p) {
  return scenario::make_plan(p, {.seed = 1, .threads = 1, .evaluations = 20, .progress = {}}).plan;
}

std::vector<int> fields_in(const plan::Plan& plan, const std::string& trouble) {
  for (const auto& t : plan.troubles)
    if (t.name == trouble) return t.fields;
  return {};
}

bool named(const plan::Plan& plan, const std::string& trouble) {
  return std::any_of(plan.troubles.begin(), plan.troubles.end(),
                     [&](const auto& t) { return t.name == trouble; });
}

}  // namespace

TEST_CASE("every method barred", "[identity]") {
  farm::Problem p = test::small_problem(2);
  for (const auto& r : p.farm.book.recipes) p.farm.fields[0].not_allowed.push_back({r.id, "the lease"});
  const plan::Plan plan = planned(p);
  CHECK(fields_in(plan, "every method is barred") == std::vector<int>{0});
  CHECK(plan.decision.method[0] == plan::none);
  CHECK(plan.decision.method[1] != plan::none);
}

TEST_CASE("zero straw", "[identity]") {
  farm::Problem p = test::small_problem(2);
  p.farm.fields[1].straw_load = KgPerHa{0.0};
  const plan::Plan plan = planned(p);
  CHECK(fields_in(plan, "no straw") == std::vector<int>{1});
  CHECK(plan.decision.method[1] != plan::none);
}

TEST_CASE("harvest after the planting date", "[identity]") {
  farm::Problem p = test::small_problem(2);
  p.farm.fields[0].harvest = make_date(2027, 5, 2);
  p.farm.fields[0].summer_drain = make_date(2027, 4, 12);
  const plan::Plan plan = planned(p);
  CHECK(fields_in(plan, "harvest after the planting date") == std::vector<int>{0});
}

TEST_CASE("no machine for a needed pass", "[identity]") {
  farm::Problem p = test::small_problem(2);
  std::erase_if(p.farm.implements, [](const auto& i) { return i.kind == "grooved_roller"; });
  const plan::Plan plan = planned(p);
  const auto fields = fields_in(plan, "no machine for a needed pass");
  CHECK(std::count(fields.begin(), fields.end(), 0) == 1);
  CHECK(std::count(fields.begin(), fields.end(), 3) == 0);  // fallow: no rolling needed
}

TEST_CASE("one weather year only", "[identity]") {
  const plan::Plan plan = planned(test::small_problem(1));
  CHECK(named(plan, "one weather year only"));
  CHECK(plan.chances_in_sample);
}

TEST_CASE("a wish for certainty that the years do not give is named", "[identity]") {
  farm::Problem p = test::small_problem(4);
  p.farm.target.wanted_chance = 1.0;
  p.farm.operators.resize(1);
  for (auto& f : p.farm.fields) f.next.planting = make_date(2027, 3, 15);
  CHECK(named(planned(p), "wanted chance not reached"));
}
