#include "aftercut/season/field_year.hpp"

#include "aftercut/core/random.hpp"
#include "catch2/catch.hpp"
#include "season_farm.hpp"

using namespace aftercut;
using Catch::Detail::Approx;
using season::FieldYear;
using test::operation;
using test::season_farm;

namespace {

FieldYear field_year(const season::YearDrivers& drivers, std::size_t field = 1) {
  return {season_farm().farm, field, drivers, {}};
}

void live_until(FieldYear& sim, int day) {
  while (sim.day() < day) sim.end_day(0.0);
}

double store(const soil::WaterState& w) { return w.seedbed_mm + w.below_mm + w.ponded_mm; }

}  // namespace

TEST_CASE("straw is laid on the harvest day, split at the cut", "[identity]") {
  const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[0], season_farm().farm);
  FieldYear sim = field_year(drivers);
  const farm::Field& field = season_farm().farm.fields[1];
  const int harvest = season_farm().farm.season.day(field.harvest);
  live_until(sim, harvest);
  CHECK(sim.pools().total() == 0.0);
  CHECK_FALSE(sim.mask().cut);
  sim.end_day(0.0);
  CHECK(sim.mask().cut);
  CHECK(sim.pools().total() == Approx(field.straw_load.value()).epsilon(1e-12));
  const double stubble = straw::stubble_share(field.cut_height_cm).value();
  CHECK(sim.pools().at(straw::Place::standing) == Approx(stubble * field.straw_load.value()).epsilon(1e-12));
  CHECK(sim.lay() == straw::Lay::windrow);
}

TEST_CASE("water and straw balance from independent sums over random seasons", "[identity]") {
  Draws draws{3, stream_of("season-test")};
  for (std::size_t y = 0; y < season_farm().years.years.size(); ++y) {
    const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[y], season_farm().farm);
    FieldYear sim = field_year(drivers, y % season_farm().farm.fields.size());
    const char* works[] = {"rake", "bale", "chop", "disk", "cage_roll", "chisel", "plane"};
    while (sim.day() < season_farm().farm.season.days) {
      if (sim.pools().total() > 0.0 && draws.uniform() < 0.05)
        sim.apply(operation(works[draws.below(7)]), draws.uniform());
      if (draws.uniform() < 0.02) sim.set_boards(draws.uniform() < 0.5 ? 150.0 : 0.0);
      sim.end_day(draws.uniform() < 0.1 ? 20.0 * draws.uniform() : 0.0);
    }
    const auto& straw = sim.straw_ledger();
    CHECK(straw.baled + straw.burned + straw.decayed + sim.pools().total() == Approx(straw.in).epsilon(1e-9));
    const auto& n = sim.life().nitrogen_sum;
    CHECK(n.in > 0.0);
    CHECK(n.from_soil > 0.0);
    CHECK(n.to_soil + n.baled + n.burned + sim.life().nitrogen.in_straw + sim.life().nitrogen.in_microbes ==
          Approx(n.in + n.from_soil).epsilon(1e-9));
    const auto& water = sim.water_ledger();
    const double in = water.start_store + water.sum.rain_mm + water.sum.water_in_mm;
    const double out = water.sum.evaporation_mm + water.sum.percolation_mm + water.sum.spill_mm;
    CHECK(in - out == Approx(store(sim.water())).epsilon(1e-9));
  }
}

TEST_CASE("the water asked for fills the soil and the pond to the target", "[identity]") {
  const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[1], season_farm().farm);
  FieldYear sim = field_year(drivers);
  live_until(sim, 60);
  sim.set_boards(150.0);
  const double need = sim.fill_need_mm(100.0);
  CHECK(need > 100.0);
  sim.end_day(need);
  CHECK(sim.water().ponded_mm > 85.0);
  CHECK(sim.water().ponded_mm < 150.0);
  CHECK(sim.fill_need_mm(100.0) < 0.2 * need);
  CHECK_FALSE(sim.mask().workable);
}

TEST_CASE("a flooded field carries nothing until the boards are out and it has dried", "[identity]") {
  const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[2], season_farm().farm);
  FieldYear sim = field_year(drivers);
  live_until(sim, 60);
  sim.set_boards(150.0);
  sim.end_day(sim.fill_need_mm(100.0));
  for (int k = 0; k < 20; ++k) {
    CHECK_FALSE(sim.mask().drive_heavy);
    sim.end_day(sim.fill_need_mm(100.0));
  }
  sim.set_boards(0.0);
  live_until(sim, 95);
  CHECK(sim.mask().ponded_mm < 60.0);
}

TEST_CASE("baling takes loose straw only, and half a pass half of it", "[identity]") {
  const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[0], season_farm().farm);
  FieldYear whole = field_year(drivers);
  live_until(whole, 20);
  FieldYear half = whole;
  const double standing = whole.pools().at(straw::Place::standing);
  whole.apply(operation("bale"));
  half.apply(operation("bale"), 0.5);
  CHECK(whole.pools().at(straw::Place::standing) == standing);
  CHECK(whole.straw_ledger().baled > 0.0);
  CHECK(half.straw_ledger().baled == Approx(0.5 * whole.straw_ledger().baled).epsilon(1e-12));
  CHECK(whole.lay() == straw::Lay::spread);
  CHECK(half.lay() == straw::Lay::windrow);  // only a whole pass changes how the straw lies
}

TEST_CASE("tillage starts the drying count anew", "[identity]") {
  const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[0], season_farm().farm);
  FieldYear sim = field_year(drivers);
  live_until(sim, 30);
  CHECK(sim.mask().drying_mm > 5.0);
  sim.apply(operation("disk"));
  CHECK(sim.mask().drying_mm == 0.0);
}

TEST_CASE("drying ground pulls harder, and in the end is too dry to be made fine", "[identity]") {
  const soil::Profile& soil = season_farm().farm.soils[season_farm().farm.fields[1].soil];
  std::size_t dry_days = 0;
  for (const auto& year : season_farm().years.years) {
    const season::YearDrivers drivers = season::drivers_of(year, season_farm().farm);
    FieldYear sim = field_year(drivers);
    while (sim.day() < season_farm().farm.season.days) {
      const season::DayMask m = sim.mask();
      const double content = soil::seedbed_content(soil, sim.water());
      REQUIRE(m.too_dry == (content < soil.dry_limit));
      REQUIRE((m.draft_factor > 1.0) == (content < soil.least_draft));
      REQUIRE(m.draft_factor <= 1.0 + soil.input.dry_draft_gain);
      if (m.ponded_mm > 0.0) REQUIRE_FALSE(m.too_dry);
      dry_days += m.too_dry ? 1 : 0;
      sim.end_day(0.0);
    }
  }
  CHECK(dry_days > 20);
}

TEST_CASE("opened ground pulls as in its easiest state until water closes it", "[identity]") {
  const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[0], season_farm().farm);
  FieldYear sim = field_year(drivers);
  live_until(sim, 30);
  REQUIRE(sim.mask().draft_factor > 1.1);
  FieldYear left = sim;
  sim.apply(operation("disk"));
  CHECK(sim.mask().draft_factor == 1.0);
  CHECK(sim.mask().too_dry == left.mask().too_dry);
  sim.set_boards(150.0);
  sim.end_day(sim.fill_need_mm(100.0));
  sim.set_boards(0.0);
  while (sim.mask().ponded_mm > 0.0) sim.end_day(0.0);
  for (int k = 0; k < 200 && sim.mask().draft_factor == 1.0 && sim.day() < 265; ++k) sim.end_day(0.0);
  CHECK(sim.mask().draft_factor > 1.0);
}

TEST_CASE("straw left by spring orders as in the field: worked in < pressed < standing", "[identity]") {
  for (std::size_t y = 0; y < season_farm().years.years.size(); ++y) {
    const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[y], season_farm().farm);
    FieldYear standing = field_year(drivers, 0);
    live_until(standing, 40);
    FieldYear mixed = standing, pressed = standing;
    mixed.apply(operation("chop"));
    mixed.apply(operation("disk"));
    mixed.apply(operation("disk"));
    pressed.apply(operation("cage_roll"));
    for (FieldYear* sim : {&standing, &mixed, &pressed}) live_until(*sim, 220);
    CAPTURE(y);
    CHECK(mixed.pools().total() < pressed.pools().total());
    CHECK(pressed.pools().total() < standing.pools().total());
  }
}

TEST_CASE("a deeper disk and a chopper put more straw under; long straw wants more passes", "[identity]") {
  const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[0], season_farm().farm);
  FieldYear field = field_year(drivers, 0);
  live_until(field, 40);
  const auto buried = [](FieldYear sim, const straw::Tool& disk, const straw::Tool& chopper) {
    if (chopper.chop_length_mm > 0.0) sim.apply(operation("chop"), 1.0, chopper);
    sim.apply(operation("disk"), 1.0, disk);
    return sim.pools().at(straw::Place::mixed);
  };
  const straw::Tool shallow{.depth_cm = 10.0}, usual{.depth_cm = 15.0}, deep{.depth_cm = 20.0}, none;
  const straw::Tool fine{.chop_length_mm = 60.0}, coarse{.chop_length_mm = 200.0};
  CHECK(buried(field, shallow, fine) < buried(field, usual, fine));
  CHECK(buried(field, usual, fine) < buried(field, deep, fine));
  CHECK(buried(field, none, fine) == buried(field, usual, fine));
  CHECK(buried(field, usual, coarse) < buried(field, usual, fine));
  FieldYear chopped = field, whole = field;
  chopped.apply(operation("chop"), 1.0, fine);
  CHECK(chopped.straw_for_passes() == chopped.pools().total());
  CHECK(whole.straw_for_passes() > 1.02 * whole.pools().total());
  FieldYear half = field;
  half.apply(operation("chop"), 0.5, fine);  // broken off: the straw counts as it lay
  CHECK(half.straw_for_passes() == whole.straw_for_passes());
}

TEST_CASE("days of the slow end put off the workable ground by as many", "[identity]") {
  farm::Farm farm = season_farm().farm;
  farm.fields[1].ground.slow_days = 3;
  for (std::size_t y = 0; y < 4; ++y) {
    const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[y], farm);
    FieldYear mean = field_year(drivers), slow{farm, 1, drivers, {}};
    int in_a_row = 0;
    while (mean.day() < farm.season.days) {
      in_a_row = mean.mask().workable ? in_a_row + 1 : 0;
      REQUIRE(slow.mask().workable == (in_a_row > 3));
      mean.end_day(0.0);
      slow.end_day(0.0);
    }
  }
}
