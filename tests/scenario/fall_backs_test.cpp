// What the fields do when nothing that they hang on comes, and by when they have to start.

#include "aftercut/scenario/fall_backs.hpp"

#include <algorithm>

#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/scenario/hangs_on.hpp"
#include "aftercut/scenario/storm.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;
using plan::Trigger;

namespace {

farm::Problem locked(const std::vector<std::string>& methods, int years = 8) {
  farm::Problem p = test::small_problem(years);
  for (std::size_t f = 0; f < methods.size(); ++f) p.farm.fields[f].locked = MethodId{methods[f]};
  p.farm.target.wanted_chance = 0.5;
  return p;
}

const std::vector<std::string> all_kinds{"bale", "bale_disk", "roll_rain", "roll_flood", "burn"};

plan::PlannedYears planned_by_rules(const farm::Problem& p) {
  return scenario::make_plan(p, {.seed = 5, .threads = 1, .evaluations = 20, .progress = {}});
}

const plan::PlannedYears& plan_of_all_kinds() {
  static const farm::Problem problem = locked(all_kinds);
  static const plan::PlannedYears made = planned_by_rules(problem);
  return made;
}

/// The fall-backs of these fields start by themselves in the first days of the season.
void start_early(farm::Problem& p, MonthDay day) {
  for (auto& recipe : p.farm.book.recipes)
    if (recipe.fall_back) recipe.fall_back->start_by = day;
}

std::size_t test_of(const plan::Plan& p, const std::vector<Trigger>& kinds) {
  for (std::size_t t = 0; t < p.fall_back_tests.size(); ++t)
    if (p.fall_back_tests[t].triggers == kinds) return t;
  throw std::runtime_error("no such test");
}

bool is_late_told(const plan::Plan& p, const plan::FallBackTest& test) {
  return std::ranges::any_of(p.troubles, [&](const plan::Trouble& t) {
    return t.name == "fall-backs start too late" && t.fields == test.fields;
  });
}

/// Share of the runs in which the last pass of these operations on each field ended by the day, by the rows
/// of work alone.
double share_done(const farm::Farm& farm, const std::vector<plan::YearRun>& runs,
                  const std::vector<int>& fields, const std::string& last_operation, int by) {
  double good = 0.0;
  for (const auto& run : runs) {
    bool all = true;
    for (const int f : fields) {
      int ended = -1;
      for (const auto& w : run.work)
        if (w.field == f && w.finishes && w.fell_back &&
            farm.book.operations[static_cast<std::size_t>(w.operation)].id.value == last_operation)
          ended = std::max(ended, w.day);
      all = all && ended >= 0 && ended <= by;
    }
    good += all ? 1.0 : 0.0;
  }
  return good / static_cast<double>(runs.size());
}

int rows_of(const farm::Farm& farm, const std::vector<plan::YearRun>& runs, const std::string& operation) {
  int n = 0;
  for (const auto& run : runs)
    for (const auto& w : run.work)
      n += farm.book.operations[static_cast<std::size_t>(w.operation)].id.value == operation && !w.stands_by
               ? 1
               : 0;
  return n;
}

}  // namespace

TEST_CASE("a storm is the one that so many years go beyond, out of the record", "[derived]") {
  weather::Years record;
  for (int y = 0; y < 10; ++y) {
    weather::Year year{
        .year = 2000 + y, .days = std::vector<weather::Day>(60), .et0_mm = std::vector<double>(60, 3.0)};
    year.days[20].rain_mm = 10.0 * (y + 1);  // 10 to 100 mm
    year.days[21].rain_mm = 5.0;
    year.days[50].rain_mm = 500.0;  // another part of the season
    record.years.push_back(year);
  }
  const plan::Storm ten = scenario::storm_at(record, {.days = 2, .one_year_in = 10.0}, 22);
  CHECK(ten.year == 2008);  // one year of ten, 2009, goes beyond
  CHECK(ten.day == 20);
  CHECK(ten.rain_mm == Approx(95.0));
  CHECK(scenario::storm_at(record, {.days = 2, .one_year_in = 2.0}, 22).rain_mm == Approx(55.0));
  CHECK(scenario::storm_at(record, {.days = 2, .one_year_in = 100.0}, 22).rain_mm == Approx(105.0));
  const weather::Year dry = scenario::with_storm(record.years[0], record, ten, 30);
  CHECK(dry.days[30].rain_mm == Approx(90.0));
  CHECK(dry.days[31].rain_mm == Approx(5.0));
  CHECK(dry.days[20].rain_mm == Approx(10.0));
  const weather::Year wet = scenario::with_storm(record.years[9], record, ten, 20);
  CHECK(wet.days[20].rain_mm == Approx(100.0));  // its own days are wetter
}

TEST_CASE("what a method hangs on is one of five kinds", "[identity]") {
  farm::Problem p = test::small_problem();
  const auto kinds = [&](const farm::Problem& problem, const char* method) {
    const dispatch::Table table = dispatch::make_table(problem, 1);
    std::vector<Trigger> found;
    for (const auto& h : scenario::hangs_on(table, 0, test::recipe_named(problem.farm, method)))
      found.push_back(h.trigger);
    return found;
  };
  CHECK(kinds(p, "burn") == std::vector{Trigger::burn_call});
  CHECK(kinds(p, "bale") == std::vector{Trigger::hired_outfit});
  CHECK(kinds(p, "bale_flood") == std::vector{Trigger::hired_outfit, Trigger::canal_water});
  CHECK(kinds(p, "roll_rain") == std::vector{Trigger::caught_rain});
  CHECK(kinds(p, "chop_disk").empty());
  farm::Problem own = p, chopped = p;
  own.farm.implements[1].hire.reset();
  CHECK(kinds(own, "bale") == std::vector{Trigger::dry_days});
  chopped.farm.implements[4].hire = machinery::Hire{.comes = {{make_date(2026, 10, 1), 0.5}}};
  CHECK(kinds(chopped, "chop_disk") == std::vector{Trigger::hired_outfit});
}

TEST_CASE(
    "without burn days, baler, canal water or rain all such fields are done together or the plan is late",
    "[identity]") {
  const plan::PlannedYears& made = plan_of_all_kinds();
  const farm::Farm farm = locked(all_kinds).farm;
  const plan::Plan& p = made.plan;
  REQUIRE(p.fall_back_tests.size() == 5);
  REQUIRE(made.fall_back_runs.size() == 5);
  for (std::size_t t = 0; t < p.fall_back_tests.size(); ++t) {
    const plan::FallBackTest& test = p.fall_back_tests[t];
    INFO(test.words);
    REQUIRE(made.fall_back_runs[t].size() == p.shown_years.size());
    CHECK(test.late() == is_late_told(p, test));
    CHECK(test.start_by.has_value() == (test.chance + 1e-9 >= p.wanted_chance));
    if (test.rule_day && test.start_by && *test.rule_day <= *test.start_by)
      CHECK((*test.start_by - *test.rule_day) % 7 == 0);
  }
  const auto runs = [&](const std::vector<Trigger>& kinds) { return made.fall_back_runs[test_of(p, kinds)]; };
  CHECK(rows_of(farm, runs({Trigger::burn_call}), "burn") == 0);
  CHECK(rows_of(farm, runs({Trigger::hired_outfit}), "bale") == 0);
  for (const auto& run : runs({Trigger::canal_water})) CHECK(run.water.empty());
  const int roller = test::recipe_named(farm, "roll_rain");
  CHECK(p.decision.method[2] == roller);
  for (const auto& run : runs({Trigger::caught_rain}))
    for (const auto& w : run.work)
      CHECK_FALSE((w.field == 2 &&
                   farm.book.operations[static_cast<std::size_t>(w.operation)].id.value == "cage_roll"));
  const auto& all = p.fall_back_tests.back();
  CHECK(all.triggers.size() == 4);
  CHECK(all.fields == std::vector{0, 1, 2, 3, 4});
  const auto& together = made.fall_back_runs.back();
  CHECK(rows_of(farm, together, "burn") + rows_of(farm, together, "bale") == 0);
  for (const auto& run : together) {
    CHECK(run.water.empty());
    for (const int f : {0, 1, 4}) CHECK(run.fields[static_cast<std::size_t>(f)].fell_back);
  }
}

TEST_CASE("the share in time is that of the rows of work", "[cross]") {
  const plan::PlannedYears& made = plan_of_all_kinds();
  const farm::Problem problem = locked(all_kinds);
  for (const Trigger kind : {Trigger::burn_call, Trigger::hired_outfit}) {
    const std::size_t t = test_of(made.plan, {kind});
    const auto& test = made.plan.fall_back_tests[t];
    const int by = problem.farm.season.day(MonthDay{12, 15});  // give_up of chop and disk
    CHECK(test.chance == Approx(share_done(problem.farm, made.fall_back_runs[t], test.fields, "disk", by)));
    for (const auto& run : made.fall_back_runs[t])
      for (const auto& w : run.work)
        if (w.fell_back) CHECK(w.day >= test.day);
  }
}

TEST_CASE("a fall-back that starts early enough is not late; one of a farm too small in machines is",
          "[identity]") {
  farm::Problem roomy = locked({"bale", "bale_disk", "bale", "chop_disk", "bale"});
  start_early(roomy, {9, 28});
  const plan::Plan early = planned_by_rules(roomy).plan;
  const auto& in_time = early.fall_back_tests[test_of(early, {Trigger::hired_outfit})];
  CHECK_FALSE(in_time.late());
  CHECK_FALSE(is_late_told(early, in_time));
  CHECK(*in_time.start_by >= roomy.farm.season.day(MonthDay{9, 28}));

  farm::Problem small = roomy;
  for (auto& i : small.farm.implements)
    if (i.kind == "disk" || i.kind == "chopper") i.entered_ha_per_day = 0.6;
  const plan::Plan slow = planned_by_rules(small).plan;
  const auto& too_late = slow.fall_back_tests[test_of(slow, {Trigger::hired_outfit})];
  CHECK(too_late.late());
  CHECK(is_late_told(slow, too_late));
  CHECK(too_late.fields == std::vector{0, 1, 2, 4});

  farm::Problem waits = roomy;
  start_early(waits, {12, 14});
  const plan::Plan late = planned_by_rules(waits).plan;
  const auto& rule = late.fall_back_tests[test_of(late, {Trigger::hired_outfit})];
  CHECK(rule.late());
  REQUIRE(rule.start_by);
  CHECK(*rule.start_by < *rule.rule_day);
  CHECK(rule.chance_by_rule < late.wanted_chance);
}

TEST_CASE("one more storm day or a rarer storm never makes fall-backs surer here", "[identity]") {
  farm::Problem p = locked({"bale", "bale_disk", "bale", "chop_disk", "bale"});
  start_early(p, {10, 19});
  p.farm.target.storm = {.days = 1, .one_year_in = 1.0};
  const plan::Plan mild = planned_by_rules(p).plan;
  p.farm.target.storm = {.days = 5, .one_year_in = 100.0};
  const plan::Plan hard = planned_by_rules(p).plan;
  const auto& a = mild.fall_back_tests[test_of(mild, {Trigger::hired_outfit})];
  const auto& b = hard.fall_back_tests[test_of(hard, {Trigger::hired_outfit})];
  CHECK(b.chance_by_rule <= a.chance_by_rule);
  CHECK(b.storm.rain_mm > a.storm.rain_mm);
}
