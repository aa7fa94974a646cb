#pragma once
// Moisture of straw lying on or standing in the field, percent of dry mass. One step is one day, judged at
// mid-afternoon. Straw in the ground has no moisture of its own: it is as wet as the ground (assumed).

#include "aftercut/core/lanes.hpp"
#include "aftercut/straw/load.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::straw {

/// Equilibrium moisture [% dry basis] at air temperature and relative humidity [%].
/// Source: Simard1968 as in CohenDeeming1985 (read in two copies). Fahrenheit inside; jumps at 10 and 50 %
/// are the source's.
double equilibrium_moisture(double air_c, double relative_humidity_percent);
/// Sky over fine fuel: what the sun does to the air at its surface.
enum class Sky { clear, scattered, broken, overcast };
/// Moisture [% dry basis] of fine dead fuel that follows the air within an hour; 35 while it rains.
/// Source: CohenDeeming1985 (read in two copies): temperature +25, 19, 12, 5 F and humidity x 0.75, 0.83,
/// 0.92, 1.00 by sky, then 1.03 times the equilibrium.
double fine_fuel_moisture(double air_c, double relative_humidity_percent, Sky sky, bool raining);
double dry_from_wet_basis(double wet_basis);  ///< 0.16 -> 0.1905
double wet_from_dry_basis(double dry_basis);

struct MoistureSettings {
  double lag_windrow_days = 1.2, lag_spread_days = 0.5,
         lag_standing_days = 0.3;  ///< Source: DryingLags (assumed)
  double rain_gain_per_mm = 12.0;  ///< % dry basis per mm of rain, up to `most`. Source: DryingLags (assumed)
  double most = 250.0;
  double dew_mm = 0.2;        ///< of a night at 100 % humidity by the day's tmin. Source: Dew (assumed)
  double at_harvest = 120.0;  ///< about 55 % wet basis. Source: UCCE2014 (read): about 60 % at harvest
};

/// Equilibrium moisture [% d.b.] that a day's afternoon draws straw towards: at tmax and the humidity of ea
/// there.
double day_equilibrium(const weather::Day& day);

/// Dew of a night [mm]: none at 90 % humidity by tmin or less, rising in a straight line to `most_mm` at 100
/// %. Where humidity is missing, tmin stands for the dew point, and every night has the most. Source: Dew
/// (assumed).
double dew_of(const weather::Day& day, double most_mm);

/// exp(-1 / lag) by lay, worked out once.
struct DryingRates {
  double keep_windrow = 0.0, keep_spread = 0.0, keep_standing = 0.0;
  double rain_gain_per_mm = 0.0, most = 0.0;
};
DryingRates rates_of(const MoistureSettings& s);

/// What a day leaves of the gap to equilibrium in straw that lies so; chopped straw dries as spread straw
/// does.
double keep_of(Lay lay, const DryingRates& rates);

/// Moisture [% d.b.] at the day's mid-afternoon, from yesterday's: rain and dew wet it first, then it goes
/// towards the day's equilibrium; `keep` of the gap is left. No transcendental calls: it runs in the day
/// loop.
template <class N>
[[gnu::always_inline]] inline N next_moisture(const N& moisture_db, const N& equilibrium_db,
                                              const N& wetting_mm, const N& keep, const DryingRates& rates) {
  const N wetted =
      greater(moisture_db, lesser(N{rates.most}, N{moisture_db + rates.rain_gain_per_mm * wetting_mm}));
  return equilibrium_db + (wetted - equilibrium_db) * keep;
}

/// From and to these moistures [% d.b.] decay on top goes from none to full. Source: SurfaceWetness (assumed)
inline constexpr double dry_straw_db = 5.0, wet_straw_db = 15.0;

/// Wetness 0 to 1 of straw on top over the day, for decay, from its mid-afternoon moisture, the day's lowest:
/// 1 from 15 % d.b., where straw stays damp enough to rot round the clock, 0 at 5 % d.b., linear between.
template <class N>
[[gnu::always_inline]] inline N surface_wetness(const N& moisture_db) {
  return between(N{(moisture_db - dry_straw_db) * (1.0 / (wet_straw_db - dry_straw_db))}, N{0.0}, N{1.0});
}

/// Remaining gap after `t` of a lag: m(t) = E + (m0 - E) exp(-t / tau).
double after_lag(double start, double equilibrium, double t, double tau);

}  // namespace aftercut::straw
