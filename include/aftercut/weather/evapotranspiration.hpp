#pragma once
// Reference evapotranspiration and its parts. Symbols and equations: Source: Allen1998 ch. 2 to 4 (recalled;
// examples read second-hand).

#include "aftercut/core/date.hpp"
#include "aftercut/core/quantity.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

KiloPascal saturation_vapour_pressure(Celsius t);  ///< es(T), eq. 11
double vapour_slope_kpa_per_c(Celsius t);          ///< eq. 13
KiloPascal vapour_pressure_from_mean_humidity(Celsius tmin, Celsius tmax,
                                              double rh_mean_percent);  ///< ea, eq. 19
KiloPascal vapour_pressure_from_humidity_range(Celsius tmin, Celsius tmax, double rh_max_percent,
                                               double rh_min_percent);  ///< ea, eq. 17
/// ea of a dry and a wet thermometer, eq. 15. `coefficient_per_c`: 0.000662 ventilated (about 5 m/s),
/// 0.000800 natural draught, 0.001200 indoors.
KiloPascal vapour_pressure_from_wet_bulb(Celsius dry, Celsius wet, KiloPascal pressure,
                                         double coefficient_per_c);
KiloPascal air_pressure(Metre elevation);             ///< eq. 7
double psychrometric_kpa_per_c(KiloPascal pressure);  ///< eq. 8

/// Where the sun stands on a day of the year, eq. 23 to 25.
struct SolarGeometry {
  double inverse_distance = 1.0;  ///< dr, relative to the mean
  double declination_rad = 0.0;
  double sunset_angle_rad = 0.0;  ///< ws: 0 in polar night, pi in polar day
};
SolarGeometry solar_geometry(double latitude_deg, int day_of_year);
MegaJoulePerM2Day extraterrestrial_radiation(double latitude_deg, int day_of_year);  ///< Ra, eq. 21
Hours daylight_hours(double latitude_deg, int day_of_year);  ///< N, eq. 34, no refraction
MegaJoulePerM2Day solar_from_sunshine(Hours n, Hours daylight, MegaJoulePerM2Day ra);  ///< eq. 35
MegaJoulePerM2Day solar_from_temperature_range(Celsius tmin, Celsius tmax, MegaJoulePerM2Day ra,
                                               Metre elevation, bool near_coast);  ///< eq. 50, at most Rso
MegaJoulePerM2Day clear_sky_radiation(MegaJoulePerM2Day ra, Metre elevation);      ///< Rso, eq. 37
MegaJoulePerM2Day net_longwave(Celsius tmin, Celsius tmax, KiloPascal ea,
                               double rs_over_rso);     ///< Rnl, eq. 39
MegaJoulePerM2Day net_shortwave(MegaJoulePerM2Day rs);  ///< Rns over the reference grass, eq. 38
MegaJoulePerM2Day net_radiation(const Day& day, const Site& site,
                                int day_of_year);  ///< Rn = Rns - Rnl, Rs/Rso held within 0.3 and 1
MegaJoulePerM2Day soil_heat_of_month(Celsius month_before, Celsius month_after);  ///< G, eq. 43
MetrePerSecond wind_at_2m(MetrePerSecond wind, Metre height);                     ///< eq. 47

/// Penman-Monteith over the reference surface, daily step, G given (0 for a day) [mm/d]. Never below 0.
/// Eq. 6.
Millimetre penman_monteith(const Day& day, const Site& site, int day_of_year,
                           MegaJoulePerM2Day soil_heat = MegaJoulePerM2Day{0.0});

/// One hour at one place; radiation in MJ m-2 h-1.
struct Hour {
  Celsius air;
  double rh_percent = 0.0;
  double wind_2m_m_s = 0.0;
  double solar = 0.0;
  double rs_over_rso = 0.0;  ///< at night: of two to three hours before sunset
  bool day = true;
};
double net_radiation_of_hour(const Hour& hour);  ///< Rn [MJ m-2 h-1], sigma 2.043e-10
/// Penman-Monteith, hourly step [mm/h]; G is a tenth of Rn by day, half of it at night. Eq. 53. Never below
/// 0.
Millimetre penman_monteith(const Hour& hour, Metre elevation);

/// Temperatures only [mm/d]. Eq. 52.
Millimetre hargreaves(Celsius tmin, Celsius tmax, MegaJoulePerM2Day ra);
/// The same with a mean of its own instead of the middle of the two.
Millimetre hargreaves(Celsius tmean, Celsius tmin, Celsius tmax, MegaJoulePerM2Day ra);

}  // namespace aftercut::weather
