// FAO-56 examples. The figures were read second-hand, in the tests of two open-source libraries that quote
// example and page.
#include "aftercut/weather/evapotranspiration.hpp"

#include <cmath>

#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::weather;
using test::Kind;

namespace {

constexpr double kFlat = 1e-9;

double es(double t) { return saturation_vapour_pressure(Celsius{t}).value(); }
double es_mean(double tmin, double tmax) { return 0.5 * (es(tmin) + es(tmax)); }
double ra(double latitude, int j) { return extraterrestrial_radiation(latitude, j).value(); }

struct Case {
  Site site;
  int j = 1;
  Day day;
};

// Example 17: Bangkok, April as one day, 13 deg 44 min N, 2 m.
Case bangkok() {
  Case c{{13.0 + 44.0 / 60.0, 100.5, 2.0, 7.0, true}, 105, {}};
  const Hours daylight = daylight_hours(c.site.latitude_deg, c.j);
  const double rs =
      solar_from_sunshine(Hours{8.5}, daylight, MegaJoulePerM2Day{ra(c.site.latitude_deg, c.j)}).value();
  c.day = {25.6, 34.8, 0.0, 2.85, 2.0, rs};
  return c;
}

// Example 18: Uccle, 6 July, 50 deg 48 min N, 100 m.
Case uccle() {
  Case c{{50.8, 4.35, 100.0, 1.0, false}, 187, {}};
  const Hours daylight = daylight_hours(c.site.latitude_deg, c.j);
  const double rs =
      solar_from_sunshine(Hours{9.25}, daylight, MegaJoulePerM2Day{ra(c.site.latitude_deg, c.j)}).value();
  const double ea = vapour_pressure_from_humidity_range(Celsius{12.3}, Celsius{21.5}, 84.0, 63.0).value();
  const double u2 = wind_at_2m(MetrePerSecond{10.0 / 3.6}, Metre{10.0}).value();
  c.day = {12.3, 21.5, 0.0, ea, u2, rs};
  return c;
}

double rso(const Case& c) {
  return clear_sky_radiation(MegaJoulePerM2Day{ra(c.site.latitude_deg, c.j)}, Metre{c.site.elevation_m})
      .value();
}
double rnl(const Case& c) {
  return net_longwave(Celsius{c.day.tmin_c}, Celsius{c.day.tmax_c}, KiloPascal{c.day.ea_kpa},
                      c.day.solar_mj_m2 / rso(c))
      .value();
}
double gamma_of(double z) { return psychrometric_kpa_per_c(air_pressure(Metre{z})); }

}  // namespace

TEST_CASE("Air and vapour: examples 2 to 5", "[published]") {
  const double wet_bulb =
      vapour_pressure_from_wet_bulb(Celsius{25.6}, Celsius{19.5}, KiloPascal{87.9}, 0.000662).value();
  test::check({
      {"pressure at 1800 m [kPa]", "Allen1998 Example 2 p63", Kind::published, 81.8,
       air_pressure(Metre{1800}).value(), 0.05},
      {"psychrometric constant at 1800 m [kPa/C]", "Allen1998 Example 2 p63", Kind::published, 0.054,
       gamma_of(1800), 0.0005},
      {"mean es, 15 and 24.5 C [kPa]", "Allen1998 Example 3 p69", Kind::published, 2.39, es_mean(15, 24.5),
       0.005},
      {"es 15 C [kPa]", "Allen1998 eq. 11", Kind::derived, 1.705, es(15), 0.0005},
      {"es 24.5 C [kPa]", "Allen1998 eq. 11", Kind::derived, 3.075, es(24.5), 0.0005},
      {"ea, wet 19.5, dry 25.6 C, 87.9 kPa, ventilated", "Allen1998 Example 4 p70", Kind::published, 1.91,
       wet_bulb, 0.005},
      {"es 18 C [kPa]", "Allen1998 Example 5 p72", Kind::published, 2.064, es(18), 0.0005},
      {"es 25 C [kPa]", "Allen1998 Example 5 p72", Kind::published, 3.168, es(25), 0.0005},
      {"ea, 18/25 C, RH 82/54 %", "Allen1998 Example 5 p72", Kind::published, 1.70,
       vapour_pressure_from_humidity_range(Celsius{18}, Celsius{25}, 82, 54).value(), 0.005},
      {"ea, 18 C, RH max 82 % alone", "Allen1998 Example 5 p72", Kind::published, 1.69, 0.82 * es(18), 0.005},
      {"ea, 18/25 C, RH mean 68 %", "Allen1998 Example 5 p72", Kind::published, 1.78,
       vapour_pressure_from_mean_humidity(Celsius{18}, Celsius{25}, 68).value(), 0.005},
  });
}

TEST_CASE("Sun above the air: examples 8 and 9", "[published]") {
  const SolarGeometry g = solar_geometry(-20.0, 246);
  test::check({
      {"dr, 3 September", "Allen1998 Example 8 p80", Kind::published, 0.985, g.inverse_distance, 0.0005},
      {"declination, 3 September [rad]", "Allen1998 Example 8 p80", Kind::published, 0.120, g.declination_rad,
       0.0005},
      {"sunset angle, 20 S [rad]", "Allen1998 Example 8 p80", Kind::published, 1.527, g.sunset_angle_rad,
       0.0005},
      {"Ra, 20 S, J 246 [MJ/m2/d]", "Allen1998 Example 8 p80", Kind::published, 32.2, ra(-20, 246), 0.05},
      {"Ra, 20 S, J 246, more digits", "Allen1998 eq. 21", Kind::derived, 32.194, ra(-20, 246), 0.001},
      {"N, 20 S, J 246 [h]", "Allen1998 Example 9 p83", Kind::published, 11.7,
       daylight_hours(-20, 246).value(), 0.05},
      {"N, more digits", "Allen1998 eq. 34", Kind::derived, 11.666, daylight_hours(-20, 246).value(), 0.001},
      {"N, 39.2 N, J 80", "Allen1998 eq. 34", Kind::derived, 11.967, daylight_hours(39.2, 80).value(), 0.001},
      {"N, 39.2 N, J 172", "Allen1998 eq. 34", Kind::derived, 14.760, daylight_hours(39.2, 172).value(),
       0.001},
      {"N, 39.2 N, J 288", "Allen1998 eq. 34", Kind::derived, 10.933, daylight_hours(39.2, 288).value(),
       0.001},
      {"N, 39.2 N, J 355", "Allen1998 eq. 34", Kind::derived, 9.240, daylight_hours(39.2, 355).value(),
       0.001},
  });
}

TEST_CASE("Radiation, soil heat and wind: examples 10 to 15", "[published]") {
  const double g = soil_heat_of_month(Celsius{14.1}, Celsius{18.8}).value();
  test::check({
      {"Rs, n 7.1, N 10.9, Ra 25.1", "Allen1998 Example 10 p84", Kind::published, 14.45,
       solar_from_sunshine(Hours{7.1}, Hours{10.9}, MegaJoulePerM2Day{25.1}).value(), 0.02},
      // The printed value rounds its factors on the way.
      {"Rnl, 19.1/25.1 C, ea 2.1, Rs 14.5, Rso 18.8", "Allen1998 Example 11 p87", Kind::published, 3.5,
       net_longwave(Celsius{19.1}, Celsius{25.1}, KiloPascal{2.1}, 14.5 / 18.8).value(), 0.1},
      {"Rns, Rs 14.5", "Allen1998 Example 12 p87", Kind::published, 11.1,
       net_shortwave(MegaJoulePerM2Day{14.5}).value(), 0.1},
      {"G, months 14.1 and 18.8 C", "Allen1998 Example 13 p90", Kind::published, 0.33, g, 0.005},
      {"G as water [mm/d]", "Allen1998 Example 13 p90", Kind::published, 0.13, 0.408 * g, 0.005},
      {"u2 of 3.2 m/s at 10 m", "Allen1998 Example 14 p92", Kind::published, 2.4,
       wind_at_2m(MetrePerSecond{3.2}, Metre{10}).value(), 0.05},
      {"Rs of 14.8/26.6 C, Ra 40.6", "Allen1998 Example 15 p98", Kind::published, 22.3,
       solar_from_temperature_range(Celsius{14.8}, Celsius{26.6}, MegaJoulePerM2Day{40.6}, Metre{200}, false)
           .value(),
       0.05},
  });
}

TEST_CASE("Example 17, Bangkok in April", "[published]") {
  const Case c = bangkok();
  const MegaJoulePerM2Day g{0.14};
  const double et0 = penman_monteith(c.day, c.site, c.j, g).value();
  test::check({
      {"ET0 [mm/d]", "Allen1998 Example 17", Kind::published, 5.72, et0, 0.005},
      // 0.005: two decimals of the inputs.
      {"ET0, second library's figure", "Allen1998 Example 17", Kind::published, 5.718, et0, 0.005},
      {"ET0, more digits", "Allen1998 Example 17", Kind::derived, 5.716, et0, 0.001},
      {"slope", "Allen1998 Example 17", Kind::derived, 0.246, vapour_slope_kpa_per_c(Celsius{30.2}), 0.0005},
      // 0.0001: the pressure is rounded before it is used.
      {"psychrometric constant", "Allen1998 Example 17", Kind::derived, 0.0674, gamma_of(2), 0.0001},
      {"es", "Allen1998 Example 17", Kind::derived, 4.42, es_mean(25.6, 34.8), 0.005},
      {"Ra", "Allen1998 Example 17", Kind::derived, 38.06, ra(c.site.latitude_deg, c.j), 0.005},
      {"N", "Allen1998 Example 17", Kind::derived, 12.31, daylight_hours(c.site.latitude_deg, c.j).value(),
       0.005},
      {"Rs", "Allen1998 Example 17", Kind::derived, 22.65, c.day.solar_mj_m2, 0.01},
      {"Rso", "Allen1998 Example 17", Kind::derived, 28.54, rso(c), 0.01},
      {"Rnl", "Allen1998 Example 17", Kind::derived, 3.11, rnl(c), 0.01},
      {"Rn", "Allen1998 Example 17", Kind::derived, 14.33, net_radiation(c.day, c.site, c.j).value(), 0.01},
  });
}

TEST_CASE("Example 18, Uccle on 6 July", "[published]") {
  const Case c = uccle();
  const double et0 = penman_monteith(c.day, c.site, c.j).value();
  test::check({
      {"ET0 [mm/d]", "Allen1998 Example 18", Kind::published, 3.88, et0, 0.005},
      {"ET0, second library's figure", "Allen1998 Example 18", Kind::published, 3.8801, et0, 0.0005},
      {"ET0, more digits", "Allen1998 Example 18", Kind::derived, 3.8803, et0, 0.0001},
      {"u2", "Allen1998 Example 18", Kind::derived, 2.078, c.day.wind_2m_m_s, 0.001},
      {"slope", "Allen1998 Example 18", Kind::derived, 0.122, vapour_slope_kpa_per_c(Celsius{16.9}), 0.0005},
      {"psychrometric constant", "Allen1998 Example 18", Kind::derived, 0.0666, gamma_of(100), 0.00005},
      {"es", "Allen1998 Example 18", Kind::derived, 1.997, es_mean(12.3, 21.5), 0.0005},
      {"ea", "Allen1998 Example 18", Kind::derived, 1.409, c.day.ea_kpa, 0.0005},
      {"Ra", "Allen1998 Example 18", Kind::derived, 41.09, ra(c.site.latitude_deg, c.j), 0.005},
      {"N", "Allen1998 Example 18", Kind::derived, 16.1, daylight_hours(c.site.latitude_deg, c.j).value(),
       0.05},
      {"Rs", "Allen1998 Example 18", Kind::derived, 22.07, c.day.solar_mj_m2, 0.005},
      {"Rso", "Allen1998 Example 18", Kind::derived, 30.90, rso(c), 0.01},
      {"Rns", "Allen1998 Example 18", Kind::derived, 17.00,
       net_shortwave(MegaJoulePerM2Day{c.day.solar_mj_m2}).value(), 0.01},
      {"Rnl", "Allen1998 Example 18", Kind::derived, 3.71, rnl(c), 0.01},
      {"Rn", "Allen1998 Example 18", Kind::derived, 13.28, net_radiation(c.day, c.site, c.j).value(), 0.01},
  });
}

TEST_CASE("Example 20, Lyon in July with temperatures alone", "[published]") {
  const Site lyon{45.0 + 43.0 / 60.0, 4.85, 200.0, 1.0, false};
  Row row;
  row.date = make_date(2001, 7, 15);  // J 196
  row.tmin_c = 14.8;
  row.tmax_c = 26.6;
  row.rain_mm = 0.0;
  const Series series = complete({row}, lyon, GapRules{}, "lyon.csv").value();
  const Day& day = series.days.front();
  const double et0 = penman_monteith(day, lyon, 196).value();
  const MegaJoulePerM2Day above = extraterrestrial_radiation(lyon.latitude_deg, 196);
  test::check({
      {"ea from the minimum temperature", "Allen1998 Example 20", Kind::published, 1.68, day.ea_kpa, 0.005},
      {"ET0 [mm/d]", "Allen1998 Example 20", Kind::published, 4.56, et0, 0.005},
      {"Hargreaves [mm/d]", "Allen1998 Example 20", Kind::published, 5.03,
       hargreaves(Celsius{14.8}, Celsius{26.6}, above).value(), 0.005},
      {"Ra", "Allen1998 Example 20", Kind::derived, 40.55, above.value(), 0.01},
      {"Rs", "Allen1998 Example 20", Kind::derived, 22.29, day.solar_mj_m2, 0.01},
      {"Rn", "Allen1998 Example 20", Kind::derived, 13.48, net_radiation(day, lyon, 196).value(), 0.01},
      {"Hargreaves, 28/38 C, mean 35, Ra 38.93715", "Mehta2006 as quoted", Kind::published, 6.1,
       hargreaves(Celsius{35}, Celsius{28}, Celsius{38}, MegaJoulePerM2Day{38.93715}).value(), 0.05},
      {"the same, more digits", "Allen1998 eq. 52", Kind::derived, 6.1008,
       hargreaves(Celsius{35}, Celsius{28}, Celsius{38}, MegaJoulePerM2Day{38.93715}).value(), 0.0001},
  });
}

TEST_CASE("Both hemispheres, and the poles", "[identity]") {
  // Half a year apart the sun stands as high south as north; the orbit alone makes the southern summer 6 to 7
  // % brighter.
  const double north = ra(39.2, 172) / solar_geometry(39.2, 172).inverse_distance;
  const double south = ra(-39.2, 355) / solar_geometry(-39.2, 355).inverse_distance;
  CHECK(south == Approx(north).epsilon(0.01));
  CHECK(ra(-39.2, 355) > 1.05 * ra(39.2, 172));
  CHECK(ra(39.2, 100) != Approx(ra(-39.2, 100)).epsilon(0.05));
  CHECK(ra(80.0, 355) == Approx(0.0).margin(kFlat));
  CHECK(daylight_hours(80.0, 355).value() == Approx(0.0).margin(kFlat));
  CHECK(daylight_hours(80.0, 172).value() == Approx(24.0));
  CHECK(daylight_hours(0.0, 200).value() == Approx(12.0));
  Day polar{-30.0, -25.0, 0.0, 0.03, 3.0, 0.0};
  CHECK(std::isfinite(penman_monteith(polar, Site{80.0, 0.0, 0.0, 0.0, false}, 355).value()));
}

TEST_CASE("Demand rises with sun, wind and dry air, and is never below zero", "[identity]") {
  const Case c = uccle();
  const auto et0 = [&](Day day) { return penman_monteith(day, c.site, c.j).value(); };
  Day sunny = c.day, windy = c.day, damp = c.day, saturated = c.day;
  sunny.solar_mj_m2 += 2.0;
  windy.wind_2m_m_s += 2.0;
  damp.ea_kpa += 0.2;
  saturated = {-5.0, 0.0, 0.0, 1.5, 5.0, 0.0};
  CHECK(et0(sunny) > et0(c.day));
  CHECK(et0(windy) > et0(c.day));
  CHECK(et0(damp) < et0(c.day));
  CHECK(et0(saturated) == 0.0);
  CHECK(penman_monteith(c.day, c.site, c.j, MegaJoulePerM2Day{1.0}).value() < et0(c.day));
  CHECK(hargreaves(Celsius{-30}, Celsius{-25}, MegaJoulePerM2Day{5}).value() == 0.0);
  CHECK(hargreaves(Celsius{20}, Celsius{20}, MegaJoulePerM2Day{30}).value() == 0.0);
}

TEST_CASE("Radiation from the temperature range: coast above inland, never above a clear sky", "[identity]") {
  const MegaJoulePerM2Day above{40.0};
  const auto rs = [&](double range, bool coast) {
    return solar_from_temperature_range(Celsius{10}, Celsius{10 + range}, above, Metre{0}, coast).value();
  };
  CHECK(rs(9, false) == Approx(0.16 * 3.0 * 40.0));
  CHECK(rs(9, true) == Approx(0.19 * 3.0 * 40.0));
  CHECK(rs(36, false) == Approx(0.75 * 40.0));
  CHECK(rs(36, true) == Approx(0.75 * 40.0));
  CHECK(rs(0, false) == 0.0);
}

TEST_CASE("hourly Penman-Monteith: N'Diaye, an afternoon hour and a night hour", "[recalled]") {
  // Inputs and results recalled, steps our arithmetic.
  const Hour afternoon{.air = Celsius{38.0},
                       .rh_percent = 52.0,
                       .wind_2m_m_s = 3.3,
                       .solar = 2.450,
                       .rs_over_rso = 2.450 / 2.658,
                       .day = true};
  const Hour night{.air = Celsius{28.0},
                   .rh_percent = 90.0,
                   .wind_2m_m_s = 1.9,
                   .solar = 0.0,
                   .rs_over_rso = 0.8,
                   .day = false};
  test::check({{"ET0 of 14 to 15 h [mm/h]", "Allen1998 Example 19", Kind::recalled, 0.63,
                penman_monteith(afternoon, Metre{8.0}).value(), 0.005},
               {"Rn of 14 to 15 h", "Allen1998 Example 19", Kind::derived, 1.749,
                net_radiation_of_hour(afternoon), 0.001},
               {"ET0 of 2 to 3 h [mm/h]", "Allen1998 Example 19", Kind::recalled, 0.00,
                penman_monteith(night, Metre{8.0}).value(), 0.005},
               {"Rn of 2 to 3 h", "Allen1998 Example 19", Kind::derived, -0.100, net_radiation_of_hour(night),
                0.001}});
}
