#include "aftercut/weather/evapotranspiration.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace aftercut::weather {
namespace {

// All constants of this file. Source: Allen1998 (recalled, reproduced by its examples).
constexpr double kSolarConstant = 0.0820;      // MJ m-2 min-1
constexpr double kStefanBoltzmann = 4.903e-9;  // MJ K-4 m-2 d-1
constexpr double kWaterPerEnergy = 0.408;      // mm per MJ m-2, 1 / latent heat of 2.45 MJ/kg
constexpr double kReferenceAlbedo = 0.23;
constexpr double kLeastClearness = 0.3;  // Rs/Rso on the darkest day

double day_angle(int day_of_year) { return 2.0 * std::numbers::pi * day_of_year / 365.0; }

double kelvin4(Celsius t) { return std::pow(t.value() + 273.16, 4); }

double mean_saturation_kpa(Celsius tmin, Celsius tmax) {
  return 0.5 * (saturation_vapour_pressure(tmin).value() + saturation_vapour_pressure(tmax).value());
}

}  // namespace

KiloPascal saturation_vapour_pressure(Celsius t) {
  return KiloPascal{0.6108 * std::exp(17.27 * t.value() / (t.value() + 237.3))};
}

double vapour_slope_kpa_per_c(Celsius t) {
  return 4098.0 * saturation_vapour_pressure(t).value() / std::pow(t.value() + 237.3, 2);
}

KiloPascal vapour_pressure_from_mean_humidity(Celsius tmin, Celsius tmax, double rh_mean_percent) {
  return KiloPascal{rh_mean_percent / 100.0 * mean_saturation_kpa(tmin, tmax)};
}

KiloPascal vapour_pressure_from_humidity_range(Celsius tmin, Celsius tmax, double rh_max_percent,
                                               double rh_min_percent) {
  return (rh_max_percent * saturation_vapour_pressure(tmin) +
          rh_min_percent * saturation_vapour_pressure(tmax)) /
         200.0;
}

KiloPascal vapour_pressure_from_wet_bulb(Celsius dry, Celsius wet, KiloPascal pressure,
                                         double coefficient_per_c) {
  return saturation_vapour_pressure(wet) - coefficient_per_c * (dry - wet).value() * pressure;
}

KiloPascal air_pressure(Metre elevation) {
  return KiloPascal{101.3 * std::pow((293.0 - 0.0065 * elevation.value()) / 293.0, 5.26)};
}

double psychrometric_kpa_per_c(KiloPascal pressure) { return 0.000665 * pressure.value(); }

SolarGeometry solar_geometry(double latitude_deg, int day_of_year) {
  const double angle = day_angle(day_of_year);
  const double declination = 0.409 * std::sin(angle - 1.39);
  const double cosine = -std::tan(latitude_deg * radians_per_degree) * std::tan(declination);
  return {1.0 + 0.033 * std::cos(angle), declination, std::acos(std::clamp(cosine, -1.0, 1.0))};
}

MegaJoulePerM2Day extraterrestrial_radiation(double latitude_deg, int day_of_year) {
  const auto [dr, declination, ws] = solar_geometry(latitude_deg, day_of_year);
  const double phi = latitude_deg * radians_per_degree;
  const double sky =
      ws * std::sin(phi) * std::sin(declination) + std::cos(phi) * std::cos(declination) * std::sin(ws);
  return MegaJoulePerM2Day{std::max(0.0, 24.0 * 60.0 / std::numbers::pi * kSolarConstant * dr * sky)};
}

Hours daylight_hours(double latitude_deg, int day_of_year) {
  return Hours{24.0 / std::numbers::pi * solar_geometry(latitude_deg, day_of_year).sunset_angle_rad};
}

MegaJoulePerM2Day solar_from_sunshine(Hours n, Hours daylight, MegaJoulePerM2Day ra) {
  const double share = daylight.value() > 0.0 ? n / daylight : 0.0;
  return (0.25 + 0.50 * share) * ra;
}

MegaJoulePerM2Day clear_sky_radiation(MegaJoulePerM2Day ra, Metre elevation) {
  return (0.75 + 2e-5 * elevation.value()) * ra;
}

MegaJoulePerM2Day solar_from_temperature_range(Celsius tmin, Celsius tmax, MegaJoulePerM2Day ra,
                                               Metre elevation, bool near_coast) {
  const double coefficient = near_coast ? 0.19 : 0.16;
  const double range = std::max(0.0, (tmax - tmin).value());
  return std::min(coefficient * std::sqrt(range) * ra, clear_sky_radiation(ra, elevation));
}

MegaJoulePerM2Day net_shortwave(MegaJoulePerM2Day rs) { return (1.0 - kReferenceAlbedo) * rs; }

MegaJoulePerM2Day net_longwave(Celsius tmin, Celsius tmax, KiloPascal ea, double rs_over_rso) {
  const double black_body = kStefanBoltzmann * 0.5 * (kelvin4(tmax) + kelvin4(tmin));
  const double humidity = 0.34 - 0.14 * std::sqrt(std::max(0.0, ea.value()));
  return MegaJoulePerM2Day{black_body * humidity * (1.35 * rs_over_rso - 0.35)};
}

MegaJoulePerM2Day net_radiation(const Day& day, const Site& site, int day_of_year) {
  const auto ra = extraterrestrial_radiation(site.latitude_deg, day_of_year);
  const double rso = clear_sky_radiation(ra, Metre{site.elevation_m}).value();
  const double clearness =
      rso > 0.0 ? std::clamp(day.solar_mj_m2 / rso, kLeastClearness, 1.0) : kLeastClearness;
  return net_shortwave(MegaJoulePerM2Day{day.solar_mj_m2}) -
         net_longwave(Celsius{day.tmin_c}, Celsius{day.tmax_c}, KiloPascal{day.ea_kpa}, clearness);
}

MegaJoulePerM2Day soil_heat_of_month(Celsius month_before, Celsius month_after) {
  return MegaJoulePerM2Day{0.07 * (month_after - month_before).value()};
}

MetrePerSecond wind_at_2m(MetrePerSecond wind, Metre height) {
  return wind * (4.87 / std::log(67.8 * height.value() - 5.42));
}

Millimetre penman_monteith(const Day& day, const Site& site, int day_of_year, MegaJoulePerM2Day soil_heat) {
  const double t = 0.5 * (day.tmin_c + day.tmax_c);
  const double slope = vapour_slope_kpa_per_c(Celsius{t});
  const double gamma = psychrometric_kpa_per_c(air_pressure(Metre{site.elevation_m}));
  const double deficit =
      std::max(0.0, mean_saturation_kpa(Celsius{day.tmin_c}, Celsius{day.tmax_c}) - day.ea_kpa);
  const double energy = (net_radiation(day, site, day_of_year) - soil_heat).value();
  const double radiation_term = kWaterPerEnergy * slope * energy;
  const double wind_term = gamma * 900.0 / (t + 273.0) * day.wind_2m_m_s * deficit;
  return Millimetre{
      std::max(0.0, (radiation_term + wind_term) / (slope + gamma * (1.0 + 0.34 * day.wind_2m_m_s)))};
}

double net_radiation_of_hour(const Hour& hour) {
  constexpr double sigma = 2.043e-10;  // MJ m-2 h-1 K-4
  const double ea = hour.rh_percent / 100.0 * saturation_vapour_pressure(hour.air).value();
  const double out = sigma * std::pow(hour.air.value() + 273.16, 4) * (0.34 - 0.14 * std::sqrt(ea)) *
                     (1.35 * hour.rs_over_rso - 0.35);
  return 0.77 * hour.solar - out;
}

Millimetre penman_monteith(const Hour& hour, Metre elevation) {
  const double t = hour.air.value();
  const double es = saturation_vapour_pressure(hour.air).value();
  const double slope = vapour_slope_kpa_per_c(hour.air);
  const double gamma = psychrometric_kpa_per_c(air_pressure(elevation));
  const double energy = net_radiation_of_hour(hour) * (hour.day ? 0.9 : 0.5);
  const double wind_term =
      gamma * 37.0 / (t + 273.0) * hour.wind_2m_m_s * es * (1.0 - hour.rh_percent / 100.0);
  return Millimetre{std::max(0.0, (kWaterPerEnergy * slope * energy + wind_term) /
                                      (slope + gamma * (1.0 + 0.34 * hour.wind_2m_m_s)))};
}

Millimetre hargreaves(Celsius tmin, Celsius tmax, MegaJoulePerM2Day ra) {
  return hargreaves((tmin + tmax) / 2.0, tmin, tmax, ra);
}

Millimetre hargreaves(Celsius tmean, Celsius tmin, Celsius tmax, MegaJoulePerM2Day ra) {
  const double range = std::sqrt(std::max(0.0, (tmax - tmin).value()));
  return Millimetre{std::max(0.0, 0.0023 * (tmean.value() + 17.8) * range * ra.value() * kWaterPerEnergy)};
}

}  // namespace aftercut::weather
