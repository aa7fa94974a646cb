// Burning on the days of a plan: calendar rows, hours by the sun, calls by season, the crew that waits in
// vain.
#include <algorithm>

#include "aftercut/dispatch/burn_day.hpp"
#include "aftercut/weather/humidity.hpp"
#include "aftercut/weather/sun.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

farm::Problem with_row(const char* name, const char* value, const char* unit) {
  farm::Problem p = small_problem();
  put(*p.farm.burning, name, value, unit);
  return p;
}

struct Burned {
  std::vector<plan::Work> burns, waits;
};

/// All burns and waits of every year under the mixed methods.
Burned burned(const farm::Problem& problem, const std::string& method = "burn",
              std::vector<std::string> methods = mixed_methods) {
  const dispatch::Table table = dispatch::make_table(problem, 5);
  methods.back() = method;
  const plan::Decision decision = decide(problem.farm, methods);
  Burned out;
  for (std::size_t y = 0; y < problem.years.years.size(); ++y)
    for (const plan::Work& w : dispatch::run(table, decision, y).work)
      if (problem.farm.book.operations[static_cast<std::size_t>(w.operation)].burning)
        (w.stands_by ? out.waits : out.burns).push_back(w);
  return out;
}

std::vector<std::string> reasons(const farm::Problem& p, const std::string& method, std::size_t field = 4) {
  return dispatch::make_table(p, 5).why_not[field][static_cast<std::size_t>(recipe_named(p.farm, method))];
}

bool starts(const std::vector<std::string>& all, const std::string& with) {
  return std::any_of(all.begin(), all.end(), [&](const std::string& r) { return r.starts_with(with); });
}

}  // namespace

TEST_CASE("no burn on a banned weekday or date", "[identity]") {
  const farm::Problem p = with_row("weekdays_banned", "monday, tuesday, wednesday, thursday", "weekdays");
  const Burned b = burned(p);
  CHECK_FALSE(b.burns.empty());
  for (const plan::Work& w : b.burns) CHECK(weekday(p.farm.season.date(w.day)) >= 4);
  for (const plan::Work& w : b.waits) CHECK(weekday(p.farm.season.date(w.day)) >= 4);
}

TEST_CASE("a burn ends its hours before sunset and begins them after sunrise", "[identity]") {
  farm::Problem p = with_row("before_sunset", "6", "h");
  put(*p.farm.burning, "after_sunrise", "4", "h");
  for (const plan::Work& w : burned(p).burns) {
    const weather::SunTimes sun = weather::sun_times(p.farm.site, p.farm.season.date(w.day));
    CHECK(w.end_min <= sun.sunset_min - 360.0);
    CHECK(w.start_min >= sun.sunrise_min + 240.0);
  }
}

TEST_CASE("humidity and temperature limits hold on the day", "[identity]") {
  farm::Problem p = with_row("most_temperature", "26", "degC");
  put(*p.farm.burning, "least_humidity", "20", "percent");
  const dispatch::Table table = dispatch::make_table(p, 5);
  int open = 0, closed = 0;
  for (std::size_t y = 0; y < p.years.years.size(); ++y)
    for (std::size_t d = 0; d < 90; ++d) {
      const weather::Day& day = p.years.years[y].days[d];
      const bool inside = day.tmax_c <= 26.0 && weather::afternoon_humidity(day) >= 0.2;
      (table.burn_days[y].open[d] ? open : closed) += 1;
      if (table.burn_days[y].open[d]) CHECK(inside);
    }
  CHECK(open > 0);
  CHECK(closed > 0);
}

TEST_CASE("what the field lacks keeps burning out of the plan", "[identity]") {
  CHECK(reasons(small_problem(), "burn").empty());
  CHECK(starts(reasons(with_row("burn_area", "6.9", "ha"), "burn"), "blocked by burn_area"));
  CHECK(reasons(with_row("burn_area", "7.0", "ha"), "burn").empty());
  CHECK(starts(reasons(with_row("default_ban", "yes", "yes/no"), "burn"), "blocked by default_ban"));
  CHECK(starts(reasons(with_row("least_people", "3", "people"), "burn"), "unknown"));
  CHECK(starts(reasons(with_row("zones_even_years", "A", "list"), "burn"), "unknown"));
  farm::Problem p = with_row("least_people", "3", "people");
  p.farm.fields[4].burn.people = 2;
  CHECK(starts(reasons(p, "burn"), "blocked by least_people"));
  p.farm.fields[4].burn.people = 3;
  CHECK(reasons(p, "burn").empty());
  p = with_row("zones_even_years", "A, C", "list");
  p.farm.fields[4].burn.zone = "B";
  CHECK(starts(reasons(p, "burn"), "blocked by zones_even_years"));
  p.farm.fields[4].burn.zone = "C";
  CHECK(reasons(p, "burn").empty());
}

TEST_CASE("a field that no day is long enough for is not burned", "[identity]") {
  CHECK(starts(reasons(with_row("start_until", "10:20", "clock"), "burn"), "too large to burn whole"));
  CHECK(reasons(with_row("start_until", "15:00", "clock"), "burn").empty());
}

TEST_CASE("without a disease finding or sample burning is unknown and not in the plan", "[identity]") {
  farm::Problem p = small_problem();
  p.farm.fields[4].disease_finding.reset();
  CHECK(starts(reasons(p, "burn"), "unknown"));
  p = with_row("disease_sample", "15", "percent");
  for (burn::Rule& rule : p.farm.burning->rules)
    if (rule.name == "disease_sample") rule.of = "stem rot";
  CHECK(starts(reasons(p, "burn"), "unknown"));
  p.farm.fields[4].burn.samples = {{"stem rot", 0.1}};
  CHECK(starts(reasons(p, "burn"), "blocked by disease_sample"));
  p.farm.fields[4].burn.samples = {{"stem rot", 0.15}};
  CHECK(reasons(p, "burn").empty());
}

TEST_CASE("an early harvest closes its weeks, leave opens them", "[identity]") {
  farm::Problem p = with_row("early_harvest_before", "09-10", "month-day");  // field 5 was cut on 8 September
  put(*p.farm.burning, "early_closed_from", "09-01", "month-day");
  put(*p.farm.burning, "early_closed_to", "10-25", "month-day");
  const Burned b = burned(p);
  CHECK_FALSE(b.burns.empty());
  for (const plan::Work& w : b.burns) CHECK(p.farm.season.date(w.day) > make_date(2026, 10, 25));
  p.farm.fields[4].burn.leave = "leave of 1 October";
  const Burned with_leave = burned(p);
  CHECK(std::any_of(with_leave.burns.begin(), with_leave.burns.end(), [&](const plan::Work& w) {
    return p.farm.season.date(w.day) <= make_date(2026, 10, 25);
  }));
}

TEST_CASE("a crew waits half a day, once a day, where the call does not come", "[identity]") {
  const farm::Problem p = small_problem();
  const std::vector<std::string> idle(5, "leave");  // the crew has nothing else to do
  const Burned b = burned(p, "burn", idle);
  REQUIRE_FALSE(b.waits.empty());
  const dispatch::Table table = dispatch::make_table(p, 5);
  for (const plan::Work& w : b.waits) {
    CHECK(w.area_ha == 0.0);
    CHECK(w.fuel_l == 0.0);
    CHECK(w.implement == plan::none);
    CHECK(w.start_min == table.shift_start_min);
    CHECK(w.end_min - w.start_min <= 9 * 30);
    CHECK(w.end_min - w.start_min >= 4 * 60);
  }
  // Waiting is paid: the years with fewer calls cost more wages on that field.
  farm::Problem never = p;
  never.farm.burning->burn_day_chance = 0.0;
  const plan::Decision d = decide(p.farm, {"leave", "leave", "leave", "leave", "burn"});
  const auto wages = [&](const farm::Problem& problem) {
    const plan::FieldRun run = dispatch::run(dispatch::make_table(problem, 5), d, 0).fields[4];
    return run.cost.wages + run.cost.own_labour;
  };
  CHECK(wages(never) > wages(p));
  // Where no call is needed nobody waits.
  CHECK(burned(with_row("day_class", "none", ""), "burn", idle).waits.empty());
}

TEST_CASE("calls of an entered season are taken over whole", "[identity]") {
  farm::Problem p = small_problem();
  // One season entered, 2003: burn days in the second half of October only.
  for (int day = 1; day <= 31; ++day) p.farm.burn_calls.push_back({make_date(2003, 10, day), day > 15});
  for (int day = 1; day <= 30; ++day) p.farm.burn_calls.push_back({make_date(2003, 11, day), false});
  const dispatch::Table t = dispatch::make_table(p, 5);
  for (const auto& year : t.burn_days)
    for (int d = p.farm.season.day(make_date(2026, 10, 1)); d <= p.farm.season.day(make_date(2026, 11, 30));
         ++d) {
      const Date date = p.farm.season.date(d);
      CHECK((year.called[static_cast<std::size_t>(d)] != 0) ==
            (month_of(date) == 10 && day_of_month(date) > 15));
    }
  // A weather year with a season of its own takes that one.
  p.farm.burn_calls.insert(p.farm.burn_calls.begin(), {make_date(2001, 10, 20), false});
  const dispatch::Table own = dispatch::make_table(p, 5);
  const auto d = static_cast<std::size_t>(p.farm.season.day(make_date(2026, 10, 20)));
  for (std::size_t y = 0; y < own.drivers.size(); ++y) {
    if (own.drivers[y].year == 2001) CHECK(own.burn_days[y].called[d] == 0);
    if (own.drivers[y].year == 2003) CHECK(own.burn_days[y].called[d] == 1);
  }
}

TEST_CASE("burning in spring: stubble over winter, burned in the window, else the fall-back", "[identity]") {
  farm::Problem p = with_row("spring_from", "02-20", "month-day");
  put(*p.farm.burning, "spring_to", "05-15", "month-day");
  for (burn::Rule& rule : p.farm.burning->rules) rule.as_of = make_date(2026, 8, 1);  // still fresh in spring
  INFO((reasons(p, "burn_spring").empty() ? "" : reasons(p, "burn_spring").front()));
  CHECK(reasons(p, "burn_spring").empty());
  CHECK(starts(reasons(small_problem(), "burn_spring"), "blocked by autumn_from"));  // no spring window there
  const Burned b = burned(p, "burn_spring");
  for (const plan::Work& w : b.burns) {
    CHECK(p.farm.season.date(w.day) >= make_date(2027, 2, 20));
    CHECK(p.farm.season.date(w.day) < make_date(2027, 4, 1));
  }
  const dispatch::Table t = dispatch::make_table(p, 5);
  std::vector<std::string> methods = mixed_methods;
  methods.back() = "burn_spring";
  const plan::Decision d = decide(p.farm, methods);
  std::size_t fell_back = 0;
  for (std::size_t y = 0; y < p.years.years.size(); ++y) {
    const plan::FieldRun run = dispatch::run(t, d, y).fields[4];
    fell_back += run.fell_back ? 1 : 0;
    CHECK(run.fell_back == (run.burned_kg_per_ha == 0.0));
  }
  CHECK(b.burns.size() + fell_back == p.years.years.size());
}
