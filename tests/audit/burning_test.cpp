// Burning in the audit: waits, closed days and rules of the field, changed one at a time.
#include <algorithm>
#include <array>

#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

void put(farm::Problem& p, const std::string& name, const char* value, const char* unit) {
  for (burn::Rule& rule : p.farm.burning->rules) {
    if (rule.name != name) continue;
    rule.value = value;
    rule.unit = unit;
  }
}

/// Field 5 is burned, the others are left: the crew is free to wait for the call.
const farm::Problem& burning_problem() {
  static const farm::Problem problem = [] {
    farm::Problem p = small_problem(8);
    for (auto& f : p.farm.fields) f.locked = MethodId{"leave"};
    p.farm.fields[4].locked = MethodId{"burn"};
    return p;
  }();
  return problem;
}

const plan::PlannedYears& burning_plan() {
  static const plan::PlannedYears planned =
      scenario::make_plan(burning_problem(), {.seed = 5, .threads = 1, .evaluations = 12, .progress = {}});
  return planned;
}

struct Spot {
  std::size_t run = 0, at = 0;
};

/// The first wait (or burn) in the runs.
Spot first_fire(const plan::PlannedYears& planned, bool wait) {
  const int burn = operation_named(burning_problem().farm, "burn");
  for (std::size_t y = 0; y < planned.runs.size(); ++y)
    for (std::size_t k = 0; k < planned.runs[y].work.size(); ++k)
      if (planned.runs[y].work[k].operation == burn && planned.runs[y].work[k].stands_by == wait)
        return {y, k};
  throw std::runtime_error("no such stretch");
}

plan::Work& first_wait(plan::PlannedYears& planned) {
  const Spot s = first_fire(planned, true);
  return planned.runs[s.run].work[s.at];
}

/// The rules broken by a sound plan when the farm's rules are others.
std::set<std::string> under(const char* name, const char* value, const char* unit) {
  farm::Problem p = burning_problem();
  put(p, name, value, unit);
  return broken_rules(p, burning_plan());
}

}  // namespace

TEST_CASE("a sound plan holds crews that waited, and keeps all rules", "[cross]") {
  CHECK_NOTHROW(first_fire(burning_plan(), true));
  CHECK_NOTHROW(first_fire(burning_plan(), false));
  CHECK(broken_rules(burning_problem(), burning_plan()).empty());
}

TEST_CASE("a wait that is left out, moved, stretched or worked in is named", "[cross]") {
  {
    plan::PlannedYears planned = burning_plan();
    const Spot s = first_fire(planned, true);
    auto& work = planned.runs[s.run].work;
    work.erase(work.begin() + static_cast<std::ptrdiff_t>(s.at));
    const auto rules = broken_rules(burning_problem(), planned);
    CHECK(rules.contains("wait left out"));
    CHECK(rules.contains("wrong cost"));
    CHECK(rules.contains("hours balance"));
  }
  {
    plan::PlannedYears planned = burning_plan();
    first_wait(planned).end_min += 60;
    CHECK(broken_rules(burning_problem(), planned).contains("wrong wait"));
  }
  {
    plan::PlannedYears planned = burning_plan();
    first_wait(planned).area_ha = 3.0;
    CHECK(broken_rules(burning_problem(), planned).contains("wait with work in it"));
  }
  {
    plan::PlannedYears planned = burning_plan();
    const Spot s = first_fire(planned, true);
    plan::Work twice = planned.runs[s.run].work[s.at];
    planned.runs[s.run].work.push_back(twice);
    CHECK(broken_rules(burning_problem(), planned).contains("waited twice"));
  }
  {
    plan::PlannedYears planned = burning_plan();
    const Spot s = first_fire(planned, false);
    planned.runs[s.run].work[s.at].stands_by = true;
    CHECK(broken_rules(burning_problem(), planned).contains("waited on a called day"));
  }
}

TEST_CASE("a rule that the plan did not know is named", "[cross]") {
  CHECK(under("weekdays_banned", "monday, tuesday, wednesday, thursday, friday, saturday", "weekdays")
            .contains("burn on a closed day"));
  CHECK(under("burn_area", "6", "ha").contains("area of one burn"));
  CHECK(under("season_area", "6", "ha").contains("season burn area"));
  CHECK(under("before_sunset", "7", "h").contains("burn outside the clock hours"));
  CHECK(under("most_temperature", "2", "degC").contains("temperature on a burn day"));
  CHECK(under("least_humidity", "99", "percent").contains("humidity on a burn day"));
  for (const auto& [name, value, unit] :
       std::vector<std::array<const char*, 3>>{{"default_ban", "yes", "yes/no"},
                                               {"least_people", "3", "people"},
                                               {"least_water", "1000", "L"},
                                               {"start_until", "10:20", "clock"},
                                               {"firebreak", "4", "m"},
                                               {"clean_record", "3", "years"},
                                               {"zones_even_years", "A", "list"},
                                               {"burn_area", "6", "ha"}}) {
    CAPTURE(name);
    CHECK(under(name, value, unit).contains("barred method chosen"));
  }
  farm::Problem unchecked = burning_problem();
  unchecked.farm.burning->rules.front().checked = false;
  CHECK(broken_rules(unchecked, burning_plan()).contains("barred method chosen"));
  farm::Problem missing = burning_problem();
  std::erase_if(missing.farm.burning->rules, [](const burn::Rule& r) { return r.name == "tools"; });
  CHECK(broken_rules(missing, burning_plan()).contains("barred method chosen"));
}

TEST_CASE("an early harvest that closes the weeks of the burn is named", "[cross]") {
  farm::Problem p = burning_problem();
  put(p, "early_harvest_before", "09-10", "month-day");
  put(p, "early_closed_from", "09-01", "month-day");
  put(p, "early_closed_to", "11-30", "month-day");
  CHECK(broken_rules(p, burning_plan()).contains("burn on a closed day"));
}

TEST_CASE("entered calls are drawn alike by plan and audit", "[cross]") {
  farm::Problem p = burning_problem();
  for (const int year : {2003, 2007})
    for (int day = 1; day <= 30; ++day) p.farm.burn_calls.push_back({make_date(year, 9, day), day % 7 == 0});
  for (int day = 1; day <= 31; ++day) p.farm.burn_calls.push_back({make_date(2003, 10, day), day % 3 == 0});
  for (int day = 1; day <= 30; ++day) p.farm.burn_calls.push_back({make_date(2007, 11, day), day % 4 == 0});
  std::sort(p.farm.burn_calls.begin(), p.farm.burn_calls.end(),
            [](const burn::DayCall& a, const burn::DayCall& b) { return a.day < b.day; });
  CHECK(broken_rules(p, burning_plan()).contains("burn on a day not called"));
  const auto planned = scenario::make_plan(p, {.seed = 5, .threads = 1, .evaluations = 12, .progress = {}});
  CHECK(broken_rules(p, planned).empty());
}
