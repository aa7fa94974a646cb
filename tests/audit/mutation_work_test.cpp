// One thing is changed in the work or water of a sound plan, and the audit names the rule that it breaks.
// Most changes are made in a weather year that is not the one shown.

#include "catch2/catch.hpp"
#include "sound_plan.hpp"

#include <algorithm>
#include <functional>

using namespace aftercut;
using namespace aftercut::test;

namespace {

struct WorkChange {
  const char* rule;       ///< expected, docs/audit.md
  const char* operation;  ///< a stretch of this operation is changed, in a year that is not shown
  std::function<void(plan::Work&)> make;
};

int season_day(int year, int month, int day) {
  return locked_problem().farm.season.day(make_date(year, month, day));
}

std::string text_of(const std::set<std::string>& rules) {
  std::string text;
  for (const auto& r : rules) text += r + "; ";
  return text;
}

void check_change(const WorkChange& change) {
  const farm::Problem& problem = locked_problem();
  plan::PlannedYears planned = sound_plan();
  const std::size_t y = other_year_with(planned, problem.farm, change.operation);
  REQUIRE(planned.runs[y].year != planned.plan.schedule_year);
  change.make(work_of(planned.runs[y], problem.farm, change.operation));
  const auto rules = broken_rules(problem, planned);
  INFO(change.operation << ", expected " << change.rule << ", found " << text_of(rules));
  CHECK(rules.contains(change.rule));
}

/// The last rainy season day of a year (by index) before `day`.
int wet_day_before(std::size_t year, int day) {
  const auto& days = locked_problem().years.years[year].days;
  while (--day > 0)
    if (days[static_cast<std::size_t>(day)].rain_mm > 4.0) break;
  return day;
}

}  // namespace

TEST_CASE("a changed stretch breaks the rule that it should", "[cross]") {
  const std::vector<WorkChange> changes{
      {"wrong hours", "disk",
       [](plan::Work& w) {
         w.end_min += 37;
         w.finishes = true;
         w.area_ha = 16.0;
       }},
      {"wrong area", "disk", [](plan::Work& w) { w.area_ha -= 0.5; }},
      {"wrong fuel", "chisel", [](plan::Work& w) { w.fuel_l *= 1.02; }},
      {"wrong end of a pass", "plane", [](plan::Work& w) { w.finishes = !w.finishes; }},
      {"shift too long", "chisel", [](plan::Work& w) { w.end_min += 600; }},
      {"outside the working day", "chisel", [](plan::Work& w) { w.start_min -= 90; }},
      {"work before today", "chop", [](plan::Work& w) { w.day = season_day(2026, 9, 9); }},
      {"work before the harvest", "chop", [](plan::Work& w) { w.day = season_day(2026, 9, 12); }},
      {"work after the cut-off", "groove_roll", [](plan::Work& w) { w.day = season_day(2027, 5, 27); }},
      {"step too early", "chisel", [](plan::Work& w) { w.day = season_day(2027, 2, 20); }},
      {"drawdown too early", "boards_out", [](plan::Work& w) { w.day = season_day(2027, 1, 25); }},
      {"machine away", "disk", [](plan::Work& w) { w.day = season_day(2026, 10, 13); }},
      {"person away", "chisel",
       [](plan::Work& w) { w.day += 6 - weekday(locked_problem().farm.season.date(w.day)); }},
      {"missing skill", "burn",
       [](plan::Work& w) {
         w.crew[0] = 1;
         w.crew[1] = 0;
       }},
      {"crew of the wrong size", "chop", [](plan::Work& w) { w.crew.fill(plan::none); }},
      {"unfit outfit", "chisel", [](plan::Work& w) { w.tractor = plan::none; }},
      {"unfit outfit", "chop", [](plan::Work& w) { w.implement = 5; }},
      {"step out of order", "plane", [](plan::Work& w) { w.step = 0; }},
      {"wrong operation", "plane",
       [](plan::Work& w) { w.operation = operation_named(locked_problem().farm, "chisel"); }},
      {"unknown reference", "disk", [](plan::Work& w) { w.field = 99; }},
      {"daily burn area", "burn", [](plan::Work& w) { w.area_ha = 10.5; }},
      {"season burn share", "burn", [](plan::Work& w) { w.area_ha = 16.5; }},
      {"part of a field burned", "burn", [](plan::Work& w) { w.area_ha = 4.0; }},
      {"burn on a day not called", "burn", [](plan::Work& w) { w.day = season_day(2026, 12, 3); }},
      {"burn outside the clock hours", "burn",
       [](plan::Work& w) {
         w.end_min -= w.start_min - 480;
         w.start_min = 480;
       }},
      {"drying days before a burn", "burn", [](plan::Work& w) { w.day = season_day(2026, 9, 10); }},
  };
  for (const WorkChange& change : changes) check_change(change);
}

TEST_CASE("a hired outfit outside its windows is away", "[cross]") {
  check_change({"machine away", "bale", [](plan::Work& w) { w.day = season_day(2026, 11, 20); }});
}

TEST_CASE("work on a wet day is named", "[cross]") {
  plan::PlannedYears planned = sound_plan();
  const std::size_t y = other_year_with(planned, locked_problem().farm, "chisel");
  plan::Work& w = work_of(planned.runs[y], locked_problem().farm, "chisel");
  w.day = wet_day_before(y, w.day);
  const auto rules = broken_rules(locked_problem(), planned);
  INFO(text_of(rules));
  CHECK(rules.contains("work in rain"));
}

TEST_CASE("a lag cut short is named", "[cross]") {
  plan::PlannedYears planned = sound_plan();
  const auto& farm = locked_problem().farm;
  const std::size_t y = other_year_with(planned, farm, "disk_spring");
  auto& run = planned.runs[y];
  plan::Work& disk = work_of(run, farm, "disk_spring");
  int chiselled = 0;
  for (const auto& w : run.work)
    if (w.field == disk.field && w.operation == operation_named(farm, "chisel"))
      chiselled = std::max(chiselled, w.day);
  disk.day = chiselled + 1;
  CHECK(broken_rules(locked_problem(), planned).contains("lag too short"));
}

TEST_CASE("a step left out is named", "[cross]") {
  plan::PlannedYears planned = sound_plan();
  const auto& farm = locked_problem().farm;
  const std::size_t y = other_year_with(planned, farm, "chop");
  const int field = work_of(planned.runs[y], farm, "chop").field;
  std::erase_if(planned.runs[y].work, [&](const plan::Work& w) {
    return w.operation == operation_named(farm, "chop") && w.field == field;
  });
  CHECK(broken_rules(locked_problem(), planned).contains("step skipped"));
}

TEST_CASE("a tractor and a person in two places at once are named", "[cross]") {
  plan::PlannedYears planned = sound_plan();
  const auto& farm = locked_problem().farm;
  const std::size_t y = other_year_with(planned, farm, "chisel");
  plan::Work twice = work_of(planned.runs[y], farm, "chisel");
  twice.field = twice.field == 0 ? 1 : 0;
  planned.runs[y].work.push_back(twice);
  const auto rules = broken_rules(locked_problem(), planned);
  CHECK(rules.contains("double-booked machine"));
  CHECK(rules.contains("double-booked person"));
}

TEST_CASE("a person who goes on with no time to move is named", "[cross]") {
  plan::PlannedYears planned = sound_plan();
  const auto& farm = locked_problem().farm;
  const std::size_t y = other_year_with(planned, farm, "chisel");
  const plan::Work before = work_of(planned.runs[y], farm, "chisel");
  plan::Work after = before;
  after.field = before.field == 0 ? 1 : 0;
  after.start_min = before.end_min + 19;
  after.end_min = after.start_min + 60;
  planned.runs[y].work.push_back(after);
  CHECK(broken_rules(locked_problem(), planned).contains("no time to move"));
}

TEST_CASE("two outfits on a field on a day are named", "[cross]") {
  plan::PlannedYears planned = sound_plan();
  const auto& farm = locked_problem().farm;
  const std::size_t y = other_year_with(planned, farm, "chisel");
  planned.runs[y].work.push_back(work_of(planned.runs[y], farm, "chisel"));
  CHECK(broken_rules(locked_problem(), planned).contains("two outfits on a field"));
}

TEST_CASE("changed canal water breaks the rule that it should", "[cross]") {
  struct Flow {
    const char* rule;
    std::function<void(plan::WaterIn&)> make;
  };
  const std::vector<Flow> flows{
      {"flow over the limit", [](plan::WaterIn& w) { w.m3 += 9000.0; }},
      {"water not as asked", [](plan::WaterIn& w) { w.m3 -= 5.0; }},
      {"water outside the supply dates", [](plan::WaterIn& w) { w.day = season_day(2027, 2, 20); }},
      {"water not asked for", [](plan::WaterIn& w) { w.field = 0; }},
      {"unknown reference", [](plan::WaterIn& w) { w.m3 = -1.0; }},
  };
  for (const Flow& flow : flows) {
    plan::PlannedYears planned = sound_plan();
    const std::size_t y = other_year_with(planned, locked_problem().farm, "boards_in");
    REQUIRE(!planned.runs[y].water.empty());
    flow.make(planned.runs[y].water.front());
    const auto rules = broken_rules(locked_problem(), planned);
    INFO(flow.rule << ", found " << text_of(rules));
    CHECK(rules.contains(flow.rule));
  }
}
