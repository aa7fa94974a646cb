#pragma once
// Reference evapotranspiration and its parts. Symbols and equations: Source: Allen1998 ch. 2 to 4 (recalled; examples read second-hand).

#include "aftercut/core/date.hpp"
#include "aftercut/core/quantity.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

KiloPascal saturation_vapour_pressure(Celsius t);                   ///< es(T), eq. 11
double vapour_slope_kpa_per_c(Celsius t);                           ///< eq. 13
KiloPascal air_pressure(Metre elevation);                           ///< eq. 7
double psychrometric_kpa_per_c(KiloPascal pressure);                ///< eq. 8
MegaJoulePerM2Day extraterrestrial_radiation(double latitude_deg, int day_of_year);  ///< Ra, eq. 21
Hours daylight_hours(double latitude_deg, int day_of_year);         ///< N, eq. 34, no refraction
MegaJoulePerM2Day solar_from_sunshine(Hours n, Hours daylight, MegaJoulePerM2Day ra);  ///< eq. 35
MegaJoulePerM2Day solar_from_temperature_range(Celsius tmin, Celsius tmax, MegaJoulePerM2Day ra, Metre elevation, bool near_coast);  ///< eq. 50, at most Rso
MegaJoulePerM2Day clear_sky_radiation(MegaJoulePerM2Day ra, Metre elevation);          ///< Rso, eq. 37
MegaJoulePerM2Day net_longwave(Celsius tmin, Celsius tmax, KiloPascal ea, double rs_over_rso);  ///< Rnl, eq. 39
MetrePerSecond wind_at_2m(MetrePerSecond wind, Metre height);       ///< eq. 47

/// Penman-Monteith over the reference surface, daily step, G given (0 for a day) [mm/d]. Never below 0. Eq. 6.
Millimetre penman_monteith(const Day& day, const Site& site, int day_of_year, MegaJoulePerM2Day soil_heat = MegaJoulePerM2Day{0.0});

/// Temperatures only [mm/d]. Eq. 52.
Millimetre hargreaves(Celsius tmin, Celsius tmax, MegaJoulePerM2Day ra);

}  // namespace aftercut::weather
