// A baling that breaks off leaves bales: they are hauled before the fall-back's first step.

#include "aftercut/dispatch/quick_runs.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"
#include "half_baled_farm.hpp"

using namespace aftercut;

namespace {

/// What happened on the field, in hectares and days.
struct Told {
  double raked_ha = 0.0, baled_ha = 0.0, hauled_ha = 0.0;
  int last_haul = plan::none, first_of_fall_back = plan::none;
};

Told told(const farm::Farm& farm, const plan::YearRun& run) {
  Told t;
  for (const plan::Work& w : run.work) {
    if (w.field != test::half_baled_field) continue;
    const std::string& id = farm.book.operations[static_cast<std::size_t>(w.operation)].id.value;
    if (w.fell_back && t.first_of_fall_back == plan::none) t.first_of_fall_back = w.day;
    if (id == "rake") t.raked_ha += w.area_ha;
    if (id == "bale") t.baled_ha += w.area_ha;
    if (id != "haul") continue;
    CHECK_FALSE(w.fell_back);
    t.hauled_ha += w.area_ha;
    t.last_haul = w.day;
  }
  return t;
}

plan::Decision all_locked(const farm::Farm& farm) {
  std::vector<std::string> methods;
  for (const auto& field : farm.fields) methods.push_back(field.locked->value);
  return test::decide(farm, methods);
}

}  // namespace

TEST_CASE("bales of a baling that broke off are hauled first, so many hectares as were baled", "[identity]") {
  const farm::Problem p = test::half_baled_problem(8);
  const dispatch::Table t = dispatch::make_table(p, 1);
  const int takes_over = p.farm.season.day(make_date(2026, 9, 25));
  int broken_off = 0;
  for (std::size_t y = 0; y < 8; ++y) {
    const plan::YearRun run = dispatch::run(t, all_locked(p.farm), y);
    const Told at = told(p.farm, run);
    CHECK(run.fields[0].fell_back);
    CHECK(at.hauled_ha == Approx(at.baled_ha).margin(1e-9));
    if (at.baled_ha <= 0.0) continue;
    ++broken_off;
    CHECK(at.baled_ha < 20.0);
    CHECK(run.fields[0].baled_kg_per_ha > 0.0);
    CHECK(at.last_haul >= takes_over);
    CHECK(at.first_of_fall_back > at.last_haul);
  }
  CHECK(broken_off >= 4);
}

TEST_CASE("where the outfit that baled takes the bales off, the fall-back waits for its day", "[identity]") {
  farm::Problem p = test::half_baled_problem(8);
  for (auto& i : p.farm.implements)
    if (i.hire) i.hire->bales_off_by = make_date(2026, 10, 6);
  const dispatch::Table t = dispatch::make_table(p, 1);
  int waited = 0;
  for (std::size_t y = 0; y < 8; ++y) {
    const Told at = told(p.farm, dispatch::run(t, all_locked(p.farm), y));
    CHECK(at.hauled_ha == 0.0);
    if (at.baled_ha <= 0.0 || at.first_of_fall_back == plan::none) continue;
    CHECK(at.first_of_fall_back > p.farm.season.day(make_date(2026, 10, 6)));
    ++waited;
  }
  CHECK(waited >= 4);
}

TEST_CASE("a quick run hauls the bales of a broken-off baling too", "[cross]") {
  farm::Problem p = test::half_baled_problem(8);
  p.farm.supply.reset();
  const dispatch::Table t = dispatch::make_table(p, 1);
  dispatch::QuickRuns quick{t, {}};
  for (std::size_t y = 0; y < 8; ++y) {
    const plan::Decision d = all_locked(p.farm);
    CHECK(quick.cents(d, y) == dispatch::cost_of(dispatch::run(t, d, y)));
  }
}

TEST_CASE("when raking is too long ago, what is left is raked again and baled, no more", "[identity]") {
  const farm::Problem p = test::raked_anew_problem(8);
  const dispatch::Table t = dispatch::make_table(p, 1);
  int raked_anew = 0;
  for (std::size_t y = 0; y < 8; ++y) {
    const plan::Decision d = all_locked(p.farm);
    const plan::YearRun run = dispatch::run(t, d, y);
    const Told at = told(p.farm, run);
    if (at.raked_ha > 20.0 + 1e-9) ++raked_anew;
    CHECK(at.baled_ha <= 20.0 + 1e-9);
    CHECK(at.hauled_ha == Approx(at.baled_ha).margin(1e-9));
    if (!run.fields[0].fell_back) CHECK(at.baled_ha == Approx(20.0));
    CHECK(at.raked_ha < 60.0);
    farm::Problem dry = p;
    dry.farm.supply.reset();
    const dispatch::Table u = dispatch::make_table(dry, 1);
    dispatch::QuickRuns by_spells{u, {}};
    CHECK(by_spells.cents(d, y) == dispatch::cost_of(dispatch::run(u, d, y)));
  }
  CHECK(raked_anew >= 4);
}
