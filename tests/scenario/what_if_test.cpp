// The farm under changes: each case does what it says, and the base plan is carried over to it.

#include "aftercut/scenario/what_if.hpp"

#include <algorithm>
#include <map>

#include "aftercut/audit/audit.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

const scenario::SearchOptions options{.seed = 4, .threads = 2, .evaluations = 600, .progress = {}};

const farm::Problem& base_problem() {
  static const farm::Problem p = [] {
    farm::Problem made = test::small_problem(6);
    made.farm.fields[2].locked.reset();
    return made;
  }();
  return p;
}

const std::vector<scenario::ChangedFarm>& cases() {
  static const std::vector<scenario::ChangedFarm> all = [] {
    std::vector<scenario::ChangedFarm> made;
    for (const std::string& name : scenario::case_names())
      made.push_back(scenario::built_in_case(base_problem(), name));
    return made;
  }();
  return all;
}

const plan::WhatIf& what_if() {
  static const plan::WhatIf made = scenario::what_if(base_problem(), cases(), options);
  return made;
}

const plan::CaseResult& result(const std::string& name) {
  const auto at = std::find_if(what_if().cases.begin(), what_if().cases.end(),
                               [&](const plan::CaseResult& c) { return c.name == name; });
  REQUIRE(at != what_if().cases.end());
  return *at;
}

double rain(const weather::Year& y) {
  double sum = 0.0;
  for (const weather::Day& d : y.days) sum += d.rain_mm;
  return sum;
}

/// Every field on the same method that its decision names, or none.
plan::Decision all_on(const std::string& method) {
  plan::Decision d = test::decide(base_problem().farm, {"leave", "leave", "leave", "leave", "leave"});
  std::fill(d.method.begin(), d.method.end(), test::recipe_named(base_problem().farm, method));
  return d;
}

}  // namespace

TEST_CASE("every plan of every case passes the audit of its own farm", "[cross]") {
  CHECK(audit::check(base_problem(), what_if().base).ok());
  REQUIRE(what_if().cases.size() == cases().size());
  for (std::size_t k = 0; k < cases().size(); ++k) {
    INFO(cases()[k].name);
    CHECK(audit::check(cases()[k].problem, what_if().cases[k].planned).ok());
    CHECK(audit::check(cases()[k].kept, what_if().cases[k].kept).ok());
  }
}

TEST_CASE("no baler bales nothing, no burn area burns nothing, planned again or kept", "[identity]") {
  CHECK(result("no-baler").planned_figures.baled_t == 0.0);
  CHECK(result("no-baler").kept_figures.baled_t == 0.0);
  CHECK(result("no-burn-area").planned_figures.burned_ha == 0.0);
  CHECK(result("no-burn-area").kept_figures.burned_ha == 0.0);
}

TEST_CASE("a plan that bales waits for the baler that does not come, and goes over to its fall-back",
          "[identity]") {
  const scenario::ChangedFarm c = scenario::built_in_case(base_problem(), "no-baler");
  const auto carried = scenario::carried_over(base_problem(), all_on("bale"), c.kept, options);
  CHECK(carried.replaced.empty());
  const dispatch::Table table = dispatch::make_table(c.kept, options.seed);
  const plan::YearRun run = dispatch::run(table, carried.decision, 0);
  CHECK(run.fields[0].fell_back);
  CHECK(run.fields[0].baled_kg_per_ha == 0.0);
  const auto barred = scenario::carried_over(base_problem(), all_on("bale"), c.problem, options);
  CHECK(barred.replaced.size() == barred.decision.method.size());
}

TEST_CASE("what a case bars is replaced by its fall-back, or by what costs least", "[identity]") {
  farm::Problem other = base_problem();
  const auto& book = base_problem().farm.book;
  const int bale = test::recipe_named(base_problem().farm, "bale");
  const auto back = book.recipes[static_cast<std::size_t>(bale)].fall_back->method;
  other.farm.fields[0].not_allowed = {{MethodId{"bale"}, "test"}};
  other.farm.fields[1].not_allowed = {{MethodId{"bale"}, "test"}, {back, "test"}};
  const auto carried = scenario::carried_over(base_problem(), all_on("bale"), other, options);
  CHECK(carried.decision.method[0] == test::recipe_named(base_problem().farm, back.value));
  CHECK(carried.decision.method[1] != bale);
  CHECK(carried.decision.method[1] != plan::none);
  REQUIRE(carried.replaced.size() >= 2);
  CHECK(carried.replaced[0].field == 0);
  CHECK(carried.replaced[0].from == bale);
}

TEST_CASE("twice the straw price never bales less, and costs less where straw is sold", "[identity]") {
  const plan::CaseResult& c = result("straw-doubled");
  const plan::WholeFarm& base = what_if().base_figures;
  CHECK(c.planned_figures.baled_t >= base.baled_t - 1e-9);
  CHECK(c.kept_figures.baled_t == Approx(base.baled_t));
  CHECK(c.kept_figures.cost_per_ha <= base.cost_per_ha + 1e-9);
  const double sold = base.baled_t * base_problem().farm.prices.straw_per_tonne.value();
  double area = 0.0;
  for (const auto& f : base_problem().farm.fields) area += f.area.value();
  CHECK(c.kept_figures.cost_per_ha == Approx(base.cost_per_ha - sold / area).margin(0.01));
}

TEST_CASE("half the water lets no day have more, dry and wet years are the ends of the record",
          "[identity]") {
  const double flow = 0.5 * base_problem().farm.supply->most_flow.value();
  for (const plan::PlannedYears* p : {&result("half-water").planned, &result("half-water").kept})
    for (const plan::YearRun& run : p->runs) {
      std::map<int, double> by_day;
      for (const plan::WaterIn& w : run.water) by_day[w.day] += w.m3;
      for (const auto& [day, m3] : by_day) CHECK(m3 <= flow + 1e-6);
    }
  const auto& dry = scenario::built_in_case(base_problem(), "dry-years").problem.years.years;
  const auto& wet = scenario::built_in_case(base_problem(), "wet-years").problem.years.years;
  REQUIRE(dry.size() == 2);
  REQUIRE(wet.size() == 2);
  for (const weather::Year& y : base_problem().years.years) {
    const bool is_dry = std::any_of(dry.begin(), dry.end(), [&](const auto& d) { return d.year == y.year; });
    const bool is_wet = std::any_of(wet.begin(), wet.end(), [&](const auto& d) { return d.year == y.year; });
    for (const weather::Year& d : dry) CHECK((is_dry || rain(d) <= rain(y)));
    for (const weather::Year& w : wet) CHECK((is_wet || rain(w) >= rain(y)));
  }
}

TEST_CASE("a change that this farm cannot feel says so", "[identity]") {
  farm::Problem bare = base_problem();
  bare.farm.supply.reset();
  bare.farm.burning.reset();
  bare.farm.prices.straw_per_tonne = Money{0.0};
  std::erase_if(bare.farm.implements, [](const auto& i) { return i.kind == "baler"; });
  for (const char* name : {"half-water", "no-burn-area", "straw-doubled", "no-baler"})
    CHECK_FALSE(scenario::built_in_case(bare, name).note.empty());
  for (const scenario::ChangedFarm& c : cases()) CHECK(c.note.empty());
}

TEST_CASE("the changes listed are the fields whose method differs", "[identity]") {
  for (const plan::CaseResult& c : what_if().cases) {
    std::size_t differ = 0;
    for (std::size_t f = 0; f < base_problem().farm.fields.size(); ++f)
      differ += c.planned.plan.decision.method[f] != what_if().base.plan.decision.method[f] ? 1 : 0;
    CHECK(c.changes.size() == differ);
  }
}
