// Water between fields, as the dispatch plays it.

#include "aftercut/dispatch/waterways.hpp"

#include <map>

#include "aftercut/dispatch/dispatch.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// Fields 1 to 3 hold winter water by the canal, 4 and 5 are left alone.
plan::Decision flooded(const farm::Farm& farm) {
  return decide(farm, {"flood", "flood", "flood", "leave", "leave"});
}

farm::Problem open_farm(int years) {
  farm::Problem p = small_problem(years);
  for (auto& f : p.farm.fields) f.locked.reset();
  return p;
}

/// First day with water, by field.
std::map<int, int> first_water(const plan::YearRun& run) {
  std::map<int, int> first;
  for (const plan::WaterIn& w : run.water) first.try_emplace(w.field, w.day);
  return first;
}

int boards_out_day(const farm::Farm& farm, const plan::YearRun& run, int field) {
  for (const plan::Work& w : run.work)
    if (w.field == field &&
        farm.book.operations[static_cast<std::size_t>(w.operation)].water == method::Water::boards_out &&
        w.finishes)
      return w.day;
  return plan::none;
}

void link(farm::Problem& p, std::size_t field, farm::LinkKind kind, std::size_t other) {
  p.farm.fields[field].links.push_back({kind, p.farm.fields[other].id});
}

}  // namespace

TEST_CASE("a field fills after the one that it fills from, or not at all", "[identity]") {
  farm::Problem p = open_farm(3);
  link(p, 0, farm::LinkKind::fills_from, 1);
  link(p, 2, farm::LinkKind::fills_from, 4);  // which is left dry
  const dispatch::Table table = dispatch::make_table(p, 1);
  for (std::size_t y = 0; y < 3; ++y) {
    const plan::YearRun run = dispatch::run(table, flooded(p.farm), y);
    const auto first = first_water(run);
    REQUIRE(first.contains(1));
    REQUIRE(first.contains(0));
    CHECK(first.at(0) > first.at(1));
    CHECK(!first.contains(2));
    CHECK(run.fields[2].steps_passed_over > 0);
  }
}

TEST_CASE("boards come out from below upwards, and no more in a day than the drains take", "[identity]") {
  farm::Problem p = open_farm(3);
  link(p, 0, farm::LinkKind::drains_to, 1);
  link(p, 1, farm::LinkKind::drains_to, 2);
  const dispatch::Table table = dispatch::make_table(p, 1);
  farm::Problem limited = open_farm(3);
  limited.farm.supply->drawdown_ha_per_day = 15.0;
  const dispatch::Table narrow = dispatch::make_table(limited, 1);
  for (std::size_t y = 0; y < 3; ++y) {
    const plan::YearRun run = dispatch::run(table, flooded(p.farm), y);
    CHECK(boards_out_day(p.farm, run, 2) < boards_out_day(p.farm, run, 1));
    CHECK(boards_out_day(p.farm, run, 1) < boards_out_day(p.farm, run, 0));
    std::map<int, double> by_day;
    std::map<int, int> fields_on;
    for (const plan::Work& w : dispatch::run(narrow, flooded(p.farm), y).work)
      if (p.farm.book.operations[static_cast<std::size_t>(w.operation)].water == method::Water::boards_out) {
        by_day[w.day] += w.area_ha;
        ++fields_on[w.day];
      }
    CHECK(by_day.size() >= 3);  // 20, 12 and 16 ha, 15 ha a day
    for (const auto& [day, ha] : by_day) CHECK((ha <= 15.0 + 1e-9 || fields_on[day] == 1));
  }
}

TEST_CASE("a field beside water takes seepage, which is not canal water", "[identity]") {
  farm::Problem dry = open_farm(4), wet = open_farm(4);
  link(wet, 4, farm::LinkKind::seeps_from, 1);
  wet.farm.supply->seepage_mm_per_day = 6.0;
  const plan::Decision d = decide(dry.farm, {"flood", "flood", "flood", "leave", "chop_disk"});
  const dispatch::Table table = dispatch::make_table(dry, 1), beside = dispatch::make_table(wet, 1);
  for (std::size_t y = 0; y < 4; ++y) {
    const plan::FieldRun a = dispatch::run(table, d, y).fields[4], b = dispatch::run(beside, d, y).fields[4];
    CHECK(b.water_m3 == 0.0);
    CHECK(b.decayed_kg_per_ha != a.decayed_kg_per_ha);
  }
  wet.farm.supply->seepage_mm_per_day = 0.0;
  const dispatch::Table no_seepage = dispatch::make_table(wet, 1);
  CHECK(dispatch::run(no_seepage, d, 0) == dispatch::run(table, d, 0));
}

TEST_CASE("a storm round takes whole minutes of the cheapest paid person, and only above the limit",
          "[identity]") {
  farm::Problem p = open_farm(1);
  CHECK(dispatch::storm_round(p.farm, 0, 25.0).minutes == 0);
  const dispatch::Round round = dispatch::storm_round(p.farm, 0, 25.1);
  CHECK(round.minutes == 30);       // 20 ha at 1.5 min/ha
  CHECK(round.cost.wages == 1100);  // ben, 22 an hour
  CHECK(round.cost.own_labour == 0);
  for (auto& o : p.farm.operators) o.paid = false;
  CHECK(dispatch::storm_round(p.farm, 0, 40.0).cost.own_labour == 1100);
  p.farm.supply.reset();
  CHECK(dispatch::storm_round(p.farm, 0, 40.0).minutes == 0);
}

TEST_CASE("storms cost hours only where boards are in", "[identity]") {
  farm::Problem calm = open_farm(3), stormy = open_farm(3);
  calm.farm.supply->storm_rain_mm = 500.0;
  stormy.farm.supply->storm_rain_mm = 5.0;
  const dispatch::Table a = dispatch::make_table(calm, 1), b = dispatch::make_table(stormy, 1);
  for (std::size_t y = 0; y < 3; ++y) {
    const auto quiet = dispatch::run(a, flooded(calm.farm), y),
               wild = dispatch::run(b, flooded(stormy.farm), y);
    for (const std::size_t f : {0U, 1U, 2U}) CHECK(wild.fields[f].labour_min > quiet.fields[f].labour_min);
    for (const std::size_t f : {3U, 4U}) CHECK(wild.fields[f].labour_min == quiet.fields[f].labour_min);
  }
}

TEST_CASE("boards take the hours that the farm's water says", "[identity]") {
  farm::Problem p = open_farm(1);
  p.farm.supply->labour_min_per_ha_fill = 12.0;
  const dispatch::Table table = dispatch::make_table(p, 1);
  const plan::YearRun run = dispatch::run(table, flooded(p.farm), 0);
  double minutes = 0.0;
  for (const plan::Work& w : run.work)
    if (w.field == 1 &&
        p.farm.book.operations[static_cast<std::size_t>(w.operation)].water == method::Water::boards_in)
      minutes += w.end_min - w.start_min;
  CHECK(minutes == 144.0);  // 12 ha at 12 min/ha
}
