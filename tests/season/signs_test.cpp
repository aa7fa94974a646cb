// What must go up or down in a whole season, whatever the numbers are.

#include "aftercut/season/field_year.hpp"
#include "aftercut/weather/evapotranspiration.hpp"
#include "catch2/catch.hpp"
#include "season_farm.hpp"

using namespace aftercut;
using season::FieldYear;
using test::operation;
using test::season_farm;

namespace {

/// Straw left at the end of April of a field that is worked in on day 60, or held under water from then to
/// day 160.
double left(const farm::Farm& farm, const weather::Year& year, bool worked_in, bool held) {
  const season::YearDrivers drivers = season::drivers_of(year, farm);
  FieldYear field{farm, 1, drivers, {}};
  while (field.day() < 240) {
    if (field.day() == 60 && worked_in) field.apply(operation("disk"));
    const bool water = held && field.day() >= 60 && field.day() < 160;
    field.set_boards(water ? 150.0 : 0.0);
    field.end_day(water ? field.fill_need_mm(100.0) : 0.0);
  }
  return field.pools().total();
}

/// Warmer at the same humidity of the afternoon, with another rain.
weather::Year changed(weather::Year year, double warmer_c, double rain_factor) {
  for (weather::Day& day : year.days) {
    day.ea_kpa *= weather::saturation_vapour_pressure(Celsius{day.tmax_c + warmer_c}).value() /
                  weather::saturation_vapour_pressure(Celsius{day.tmax_c}).value();
    day.tmin_c += warmer_c;
    day.tmax_c += warmer_c;
    day.rain_mm *= rain_factor;
  }
  return year;
}

}  // namespace

TEST_CASE("richer straw rots faster, colder years leave more, and so do drier ones on top", "[identity]") {
  farm::Farm rich = season_farm().farm;
  rich.decay.nitrogen_g_per_kg = 7.5;
  for (const weather::Year& year : season_farm().years.years)
    for (const bool worked_in : {false, true}) {
      CAPTURE(year.year, worked_in);
      const double usual = left(season_farm().farm, year, worked_in, false);
      CHECK(left(rich, year, worked_in, false) < usual);
      CHECK(left(season_farm().farm, changed(year, -3.0, 1.0), worked_in, false) > usual);
      if (!worked_in) CHECK(left(season_farm().farm, changed(year, 0.0, 0.3), worked_in, false) > usual);
    }
}

TEST_CASE("birds leave less of flooded straw", "[identity]") {
  farm::Farm birds = season_farm().farm;
  birds.decay.waterfowl_loose = straw::duck_loss_loose;
  birds.decay.waterfowl_pressed = straw::duck_loss_pressed;
  for (const weather::Year& year : season_farm().years.years) {
    CAPTURE(year.year);
    CHECK(left(birds, year, false, true) < left(season_farm().farm, year, false, true));
    CHECK(left(birds, year, true, true) <= left(season_farm().farm, year, true, true));
  }
}

TEST_CASE("a higher cut leaves more stubble and less to bale", "[identity]") {
  const season::YearDrivers drivers = season::drivers_of(season_farm().years.years[0], season_farm().farm);
  double last_baled = 1e9, last_stubble = 0.0;
  for (const double cut_cm : {5.0, 15.0, 30.0, 45.0}) {
    farm::Farm farm = season_farm().farm;
    farm.fields[1].cut_height_cm = cut_cm;
    FieldYear field{farm, 1, drivers, {}};
    while (field.day() < 40) field.end_day(0.0);
    const double stubble = field.pools().at(straw::Place::standing);
    field.apply(operation("bale"));
    CHECK(field.straw_ledger().baled < last_baled);
    CHECK(stubble > last_stubble);
    last_baled = field.straw_ledger().baled;
    last_stubble = stubble;
  }
}

TEST_CASE("planting later never loses less grain", "[identity]") {
  for (const farm::Field& field : season_farm().farm.fields) {
    double last = 0.0;
    for (const auto& node : field.next.late_curve) {
      CHECK(node.loss_kg_per_ha >= last);
      last = node.loss_kg_per_ha;
    }
  }
}
