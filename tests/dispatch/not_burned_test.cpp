// Days on which a field waited for its burn, counted by what held it up.
#include <algorithm>

#include "aftercut/dispatch/burn_day.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// Days not burned of field 5 under `burn`, summed over all years.
struct Counted {
  plan::DaysNotBurned days;
  int burned_years = 0;
};
Counted counted(const farm::Problem& p) {
  const dispatch::Table table = dispatch::make_table(p, 5);
  std::vector<std::string> methods(5, "leave");
  methods.back() = "burn";
  const plan::Decision decision = decide(p.farm, methods);
  Counted c;
  for (std::size_t y = 0; y < p.years.years.size(); ++y) {
    const plan::FieldRun run = dispatch::run(table, decision, y).fields[4];
    for (const plan::NotBurnedPart& part : plan::not_burned_parts) c.days.*part.of += run.not_burned.*part.of;
    c.burned_years += run.burned_kg_per_ha > 0.0 ? 1 : 0;
  }
  return c;
}

/// The small farm with a call every day and no limit that keeps it from burning on a dry one.
farm::Problem every_day_called() {
  farm::Problem p = small_problem();
  p.farm.burning->burn_day_chance = 1.0;
  for (const char* row : {"most_wind", "least_wind", "most_humidity", "least_humidity", "most_temperature",
                          "least_temperature"})
    put(*p.farm.burning, row, "none", "");
  return p;
}

}  // namespace

TEST_CASE("what held a burn up is counted by its cause", "[identity]") {
  farm::Problem p = every_day_called();
  const Counted dry = counted(p);
  CHECK(dry.burned_years > 0);
  CHECK(dry.days.not_called == 0);
  CHECK(dry.days.out_of_limits == 0);
  SECTION("never called") {
    p.farm.burning->burn_day_chance = 0.0;
    const Counted c = counted(p);
    CHECK(c.burned_years == 0);
    CHECK(c.days.not_called > 0);
    CHECK(c.days.too_wet + c.days.out_of_limits + c.days.no_room == 0);
    // Every day on which the field waits: from its first to the day before the fall-back takes over.
    const auto& back = *p.farm.book.recipes[static_cast<std::size_t>(recipe_named(p.farm, "burn"))].fall_back;
    const int first = std::max(p.farm.season.day(p.farm.fields[4].harvest) + 1, p.farm.season.day(p.as_of));
    const dispatch::Table table = dispatch::make_table(p, 5);
    int open = 0;
    for (int d = first; d < p.farm.season.day(back.start_by); ++d)
      open += dispatch::date_is_open(table.burn_limits, p.farm.season.date(d)) ? 1 : 0;
    CHECK(c.days.not_called == open * static_cast<int>(p.years.years.size()));
  }
  SECTION("never calm enough") {
    put(*p.farm.burning, "most_wind", "0.01", "m/s");
    const Counted c = counted(p);
    CHECK(c.burned_years == 0);
    CHECK(c.days.out_of_limits > 0);
    CHECK(c.days.not_called + c.days.no_room == 0);
    CHECK(c.days.too_wet >= dry.days.too_wet);
  }
  SECTION("never dry") {
    put(*p.farm.burning, "dry_days_spread", "300", "days");
    put(*p.farm.burning, "dry_days_windrow", "300", "days");
    const Counted c = counted(p);
    CHECK(c.burned_years == 0);
    CHECK(c.days.too_wet > 0);
    CHECK(c.days.not_called + c.days.out_of_limits + c.days.no_room == 0);
  }
  SECTION("nobody there") {
    for (auto& person : p.farm.operators)
      person.away = {{p.farm.season.first, p.farm.season.date(p.farm.season.days - 1)}};
    const Counted c = counted(p);
    CHECK(c.burned_years == 0);
    CHECK(c.days.no_room > 0);
    CHECK(c.days.not_called + c.days.out_of_limits == 0);
    CHECK(c.days.too_wet >= dry.days.too_wet);
  }
}

TEST_CASE("a field that is not to be burned counts no such day", "[identity]") {
  const farm::Problem p = small_problem();
  const dispatch::Table table = dispatch::make_table(p, 5);
  const plan::YearRun run = dispatch::run(table, decide(p.farm, std::vector<std::string>(5, "leave")), 0);
  for (const plan::FieldRun& f : run.fields) CHECK(f.not_burned == plan::DaysNotBurned{});
}
