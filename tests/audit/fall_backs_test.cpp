// What the plan says of fields that do without others, and its money by month, changed; the audit names it.

#include "catch2/catch.hpp"
#include "changes.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

plan::FallBackTest& test_with_start(plan::PlannedYears& p) {
  for (auto& t : p.plan.fall_back_tests)
    if (t.start_by) return t;
  throw std::runtime_error("no fall-backs that fit");
}

/// The run of a fall-back year in which the field worked, and its last row there.
plan::Work& fallen_work(plan::PlannedYears& p) {
  for (auto& runs : p.fall_back_runs)
    for (auto& run : runs)
      for (auto& w : run.work)
        if (w.fell_back) return w;
  throw std::runtime_error("no fall-back was worked");
}

plan::MonthCash& dear_month(plan::PlannedYears& p) {
  return *std::ranges::max_element(p.plan.cash, {},
                                   [](const plan::MonthCash& c) { return c.mean.out_of_pocket(); });
}

}  // namespace

TEST_CASE("a changed fall-back is named", "[cross]") {
  REQUIRE(sound_plan().plan.fall_back_tests.size() == 4);  // call, outfit, canal, and all together
  check_changes(
      {{"wrong start-by day", [](auto& p) { *test_with_start(p).start_by += 7; }},
       {"wrong start-by day", [](auto& p) { test_with_start(p).start_by.reset(); }},
       {"wrong share of fall-backs in time", [](auto& p) { p.plan.fall_back_tests[0].chance -= 0.1; }},
       {"wrong share of fall-backs in time", [](auto& p) { p.plan.fall_back_tests[1].chance_ready += 0.1; }},
       {"wrong day of the recipe's own fall-back", [](auto& p) { *p.plan.fall_back_tests[0].rule_day -= 1; }},
       {"wrong storm", [](auto& p) { p.plan.fall_back_tests[1].storm.rain_mm -= 1.0; }},
       {"wrong storm", [](auto& p) { p.plan.fall_back_tests[1].storm.day += 1; }},
       {"wrong fields of a fall-back", [](auto& p) { p.plan.fall_back_tests[1].fields.pop_back(); }},
       {"fall-backs left out", [](auto& p) { p.plan.fall_back_tests.pop_back(); }},
       {"wrong trigger of a fall-back", [](auto& p) { p.plan.fields[0].chosen.hangs_on.clear(); }},
       {"wrong trigger of a fall-back",
        [](auto& p) { p.plan.fields[0].chosen.hangs_on[0].trigger = plan::Trigger::dry_days; }},
       {"wrong chance of a fall-back",
        [](auto& p) { p.plan.fields[4].chosen.hangs_on[0].chance_taken += 0.3; }}},
      locked_problem());
}

TEST_CASE("a changed run behind a start-by day is named", "[cross]") {
  check_changes(
      {{"missing year", [](auto& p) { p.fall_back_runs[0].pop_back(); }},
       {"wrong ready day", [](auto& p) { p.fall_back_runs[1][0].fields[0].ready_day -= 1; }},
       {"wrong straw-over day", [](auto& p) { p.fall_back_runs[1][0].fields[0].straw_over_day -= 1; }},
       {"wrong area", [](auto& p) { fallen_work(p).area_ha += 1.0; }},
       {"wrong cost", [](auto& p) { p.fall_back_runs[0][0].fields[4].cost.fuel += 5; }},
       {"unfit outfit", [](auto& p) { fallen_work(p).implement = 0; }}},
      locked_problem());
}

TEST_CASE("a late fall-back that the plan does not tell is named", "[cross]") {
  const auto late = [](const plan::FallBackTest& t) { return t.late(); };
  REQUIRE(std::ranges::any_of(sound_plan().plan.fall_back_tests, late));
  check_changes({{"late fall-back not told", [](auto& p) { p.plan.troubles.clear(); }}}, locked_problem());
}

TEST_CASE("changed money of a month is named", "[cross]") {
  check_changes(
      {{"months do not add up", [](auto& p) { dear_month(p).mean.fuel += 1; }},
       {"wrong money of a month", [](auto& p) { dear_month(p).mean.fuel += 100; }},
       {"wrong money of a month", [](auto& p) { dear_month(p).p90 += 100; }},
       {"wrong money of a month", [](auto& p) { dear_month(p).month = dear_month(p).month % 12 + 1; }},
       {"months do not add up", [](auto& p) { p.plan.cash.pop_back(); }},
       {"wrong straw-over day", [](auto& p) { p.runs[0].fields[2].straw_over_day += 1; }}},
      locked_problem());
}
