#pragma once
// How a grass fire would run, for cautions only: nothing here ever turns a no into a yes. Fitted to grass;
// cut and grazed grass is nearest to standing stubble. Loose chopped mats and windrows lie outside the data,
// as do embers thrown ahead, whirlwinds, slopes and chaff.

#include "aftercut/core/quantity.hpp"

namespace aftercut::burn {

/// Weather at the fire. Wind at 10 m in the open.
struct FireWeather {
  double temperature_c = 0.0;
  double humidity_percent = 0.0;
  double wind_km_h = 0.0;
};

enum class Pasture {
  natural,   ///< standing, undisturbed
  cut,       ///< cut or grazed, nearest to stubble
  eaten_out  ///< closely grazed, very thin
};

/// Moisture of dead grass, % of dry mass: max(5, 9.58 - 0.205 T + 0.138 RH).
/// Source: McArthur1966 (read second-hand)
double dead_grass_moisture_percent(const FireWeather& w);

/// Share of the full spread at a curing of `curing_percent` (dead share of the grass); 0 below 20 %.
/// Source: Cruz2015 (read second-hand)
double curing_factor(double curing_percent);

/// Share of the spread of bone-dry grass. Below 12 % moisture exp(-0.108 M); above it a line by wind.
/// Source: Cheney1998 (read second-hand)
double moisture_factor(double moisture_percent, double wind_km_h);

/// Spread of the head of the fire [km/h]. Tested in the source up to winds of about 50 km/h.
/// Source: Cheney1998 (read second-hand)
double head_spread_km_h(Pasture pasture, const FireWeather& w, double curing_percent);

/// Length to breadth of the fire's ellipse, 1.1 U^0.464 from 5 km/h wind on, never below 1.
/// Source: Cheney1998 (read second-hand)
double length_to_breadth(double wind_km_h);
/// Spread of the back of the ellipse against that of its head.
double back_to_head(double wind_km_h);

/// Spread of the head in cured short grass by another equation, whose data are other grass [km/h]; 0 from a
/// moisture of 12 % on. `midflame_km_h`: wind at half the height of the flames. Source: Rothermel1972
/// (recalled)
double short_grass_spread_km_h(double moisture_percent, double midflame_km_h);
/// Wind at the flames of short grass in the open against that at 10 m. Source: MidflameWind (recalled)
inline constexpr double midflame_share = 0.36;

/// Heat along the front [kW/m]: I = H w r with H = 18 600 kJ/kg.
/// Source: Byram1959 (read second-hand)
double front_intensity_kw_per_m(KgPerHa fuel, double spread_km_h);
/// Flame length [m]: 0.0775 I^0.46. Source: Byram1959 (recalled)
double flame_length_m(double intensity_kw_per_m);

/// Chance that the head crosses a break of this width without people at it. Tested on breaks of 1.5 to 15 m;
/// a narrow or wider break is outside it. Source: Wilson1988 (read second-hand)
double chance_of_crossing(double intensity_kw_per_m, Metre width, bool trees_within_20_m);
inline constexpr double narrowest_tested_m = 1.5, widest_tested_m = 15.0;

/// Grass fire danger index Mk 5. Fuel in t/ha, curing in %.
/// Source: Noble1980 (read second-hand)
struct GrassDanger {
  double moisture_percent = 0.0;
  double index = 0.0;
};
GrassDanger grass_danger(const FireWeather& w, double curing_percent, double fuel_t_per_ha);
/// The index from a moisture that is known. Source: Noble1980 (read second-hand)
double grass_danger_index(double moisture_percent, double wind_km_h, double fuel_t_per_ha);

}  // namespace aftercut::burn
