#include "aftercut/straw/moisture.hpp"

#include <array>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/weather/evapotranspiration.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::straw;
using aftercut::test::check;
using aftercut::test::Kind;

namespace {

double celsius(double fahrenheit) { return (fahrenheit - 32.0) / 1.8; }

}  // namespace

TEST_CASE("Equilibrium moisture at twelve points", "[derived]") {
  struct Case {
    double fahrenheit, humidity, percent;
  };
  const Case cases[] = {{90, 5, 1.1776},   {100, 9.999, 2.2648}, {100, 10, 2.3502},    {90, 20, 4.0991},
                        {80, 30, 5.8480},  {70, 40, 7.5969},     {68, 49.999, 9.2274}, {68, 50, 9.6232},
                        {60, 65, 11.7998}, {50, 80, 16.6207},    {45, 95, 23.8846},    {40, 100, 26.9907}};
  for (const Case& c : cases) {
    CAPTURE(c.fahrenheit, c.humidity);
    check({{"EMC % d.b.", "Simard1968 as in CohenDeeming1985 (equation read), our arithmetic", Kind::derived,
            c.percent, equilibrium_moisture(celsius(c.fahrenheit), c.humidity), 0.001}});
  }
}

TEST_CASE("Equilibrium rises with humidity, falls with heat, and is never negative", "[identity]") {
  for (double h = 0.0; h <= 95.0; h += 5.0) {
    CHECK(equilibrium_moisture(20.0, h + 5.0) > equilibrium_moisture(20.0, h));
    CHECK(equilibrium_moisture(35.0, h + 2.0) < equilibrium_moisture(10.0, h + 2.0));
    CHECK(equilibrium_moisture(48.0, h) >= 0.0);
  }
  CHECK_THROWS_AS(equilibrium_moisture(20.0, 101.0), InternalError);
  CHECK_THROWS_AS(equilibrium_moisture(20.0, -1.0), InternalError);
}

TEST_CASE("A day's equilibrium is that of its afternoon", "[derived]") {
  weather::Day day;
  day.tmax_c = celsius(80.0);
  const double es = 0.6108 * std::exp(17.27 * day.tmax_c / (day.tmax_c + 237.3));
  day.ea_kpa = 0.30 * es;
  weather::Day foggy = day;
  foggy.ea_kpa = 1.5 * es;
  check({{"80 F at 30 %", "Simard1968, our arithmetic", Kind::derived, 5.848, day_equilibrium(day), 0.001},
         {"air that is wetter than it can be counts as 100 %", "Simard1968, our arithmetic", Kind::derived,
          equilibrium_moisture(day.tmax_c, 100.0), day_equilibrium(foggy), 1e-9}});
}

TEST_CASE("Time lag", "[derived]") {
  const char* source = "exponential lag, our arithmetic";
  const double e = 5.848;
  check({{"20 %, tau 1 h, 0.5 h", source, Kind::derived, 14.432, after_lag(20.0, e, 0.5, 1.0), 0.001},
         {"1 h", source, Kind::derived, 11.054, after_lag(20.0, e, 1.0, 1.0), 0.001},
         {"2 h", source, Kind::derived, 7.763, after_lag(20.0, e, 2.0, 1.0), 0.001},
         {"3 h", source, Kind::derived, 6.553, after_lag(20.0, e, 3.0, 1.0), 0.001},
         {"5 h", source, Kind::derived, 5.943, after_lag(20.0, e, 5.0, 1.0), 0.001},
         {"tau 10 h, 1 h", source, Kind::derived, 18.653, after_lag(20.0, e, 1.0, 10.0), 0.001},
         {"tau 10 h, 5 h", source, Kind::derived, 14.432, after_lag(20.0, e, 5.0, 10.0), 0.001},
         {"share of the gap closed in one lag", source, Kind::derived, 0.632,
          1.0 - after_lag(1.0, 0.0, 3.0, 3.0), 0.0005}});
  CHECK_THROWS_AS(after_lag(20.0, e, 1.0, 0.0), InternalError);
}

TEST_CASE("Wet and dry basis", "[derived]") {
  const char* source = "definition of the bases";
  check({{"16 % wet", source, Kind::derived, 0.1905, dry_from_wet_basis(0.16), 0.00005},
         {"and back", source, Kind::derived, 0.16, wet_from_dry_basis(dry_from_wet_basis(0.16)), 1e-12},
         {"120 % dry, straw at harvest", source, Kind::derived, 0.5455, wet_from_dry_basis(1.20), 0.00005},
         {"12 % wet", source, Kind::derived, 0.1364, dry_from_wet_basis(0.12), 0.00005}});
  CHECK_THROWS_AS(dry_from_wet_basis(1.0), InternalError);
  CHECK_THROWS_AS(wet_from_dry_basis(-0.1), InternalError);
}

TEST_CASE("The default moisture at harvest is near the recorded one", "[published]") {
  check({{"about 60 % wet basis, to 10 points", "UCCE2014", Kind::published, 0.60,
          wet_from_dry_basis(MoistureSettings{}.at_harvest / 100.0), 0.10}});
}

TEST_CASE("Daily moisture follows the lag of its lay", "[identity]") {
  const MoistureSettings s;
  const DryingRates rates = rates_of(s);
  check({{"windrow, one dry day", "after_lag", Kind::cross, after_lag(120.0, 8.0, 1.0, s.lag_windrow_days),
          next_moisture(120.0, 8.0, 0.0, keep_of(Lay::windrow, rates), rates), 1e-12},
         {"spread, one dry day", "after_lag", Kind::cross, after_lag(120.0, 8.0, 1.0, s.lag_spread_days),
          next_moisture(120.0, 8.0, 0.0, keep_of(Lay::spread, rates), rates), 1e-12},
         {"chopped dries as spread", "after_lag", Kind::cross,
          next_moisture(120.0, 8.0, 0.0, keep_of(Lay::spread, rates), rates),
          next_moisture(120.0, 8.0, 0.0, keep_of(Lay::chopped, rates), rates), 0.0}});
  CHECK(next_moisture(120.0, 8.0, 0.0, keep_of(Lay::windrow, rates), rates) >
        next_moisture(120.0, 8.0, 0.0, keep_of(Lay::spread, rates), rates));
}

TEST_CASE("Rain wets straw up to what it holds, and dry straw takes moisture from humid air", "[identity]") {
  const DryingRates rates = rates_of(MoistureSettings{});
  double last = 0.0;
  for (double rain = 0.0; rain <= 20.0; rain += 2.0) {
    const double m = next_moisture(15.0, 10.0, rain, keep_of(Lay::windrow, rates), rates);
    CHECK(m > last);
    last = m;
  }
  CHECK(next_moisture(15.0, 10.0, 500.0, keep_of(Lay::windrow, rates), rates) ==
        next_moisture(15.0, 10.0, 50.0, keep_of(Lay::windrow, rates), rates));
  CHECK(next_moisture(15.0, 10.0, 500.0, keep_of(Lay::windrow, rates), rates) < 250.0);
  CHECK(next_moisture(8.0, 22.0, 0.0, keep_of(Lay::spread, rates), rates) > 8.0);
  CHECK(next_moisture(8.0, 22.0, 0.0, keep_of(Lay::spread, rates), rates) < 22.0);
  MoistureSettings none;
  none.lag_spread_days = 0.0;
  CHECK_THROWS_AS(rates_of(none), InternalError);
}

TEST_CASE("Surface wetness from moisture", "[identity]") {
  CHECK(surface_wetness(0.0) == 0.0);
  CHECK(surface_wetness(5.0) == 0.0);
  CHECK(surface_wetness(10.0) == Approx(0.5));
  CHECK(surface_wetness(15.0) == 1.0);
  CHECK(surface_wetness(250.0) == 1.0);
}

TEST_CASE("Dew: none in dry nights, the most at saturation, and it delays a windrow a little", "[identity]") {
  aftercut::weather::Day night;
  night.tmin_c = 6.0;
  const double es = aftercut::weather::saturation_vapour_pressure(aftercut::Celsius{6.0}).value();
  night.ea_kpa = 0.85 * es;
  CHECK(dew_of(night, 0.2) == 0.0);
  night.ea_kpa = 0.95 * es;
  CHECK(dew_of(night, 0.2) == Approx(0.1));
  night.ea_kpa = es;
  CHECK(dew_of(night, 0.2) == Approx(0.2));
  night.ea_kpa = 1.2 * es;
  CHECK(dew_of(night, 0.2) == Approx(0.2));
  const DryingRates rates = rates_of(MoistureSettings{});
  const double dry = next_moisture(15.0, 8.0, 0.0, keep_of(Lay::windrow, rates), rates),
               damp = next_moisture(15.0, 8.0, 0.2, keep_of(Lay::windrow, rates), rates);
  CHECK(damp > dry);
  CHECK(damp < dry + 0.2 * rates.rain_gain_per_mm);
}

TEST_CASE("Fine fuel under sun and cloud", "[derived]") {
  const double air_c = (80.0 - 32.0) / 1.8;
  check({{"80 F, 30 %, clear", "CohenDeeming1985, our arithmetic", Kind::derived, 4.406,
          fine_fuel_moisture(air_c, 30.0, Sky::clear, false), 0.0005},
         {"80 F, 30 %, overcast", "CohenDeeming1985, our arithmetic", Kind::derived, 5.947,
          fine_fuel_moisture(air_c, 30.0, Sky::overcast, false), 0.0005},
         {"in rain", "CohenDeeming1985", Kind::published, 35.0,
          fine_fuel_moisture(air_c, 30.0, Sky::overcast, true), 0.0}});
  CHECK(fine_fuel_moisture(air_c, 30.0, Sky::clear, false) <
        fine_fuel_moisture(air_c, 30.0, Sky::scattered, false));
  CHECK(fine_fuel_moisture(air_c, 30.0, Sky::scattered, false) <
        fine_fuel_moisture(air_c, 30.0, Sky::broken, false));
}
