#include "aftercut/straw/moisture.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/weather/evapotranspiration.hpp"

namespace aftercut::straw {
namespace {

double keep_after(double lag_days) {
  require(lag_days > 0.0, "a drying lag is above zero");
  return std::exp(-1.0 / lag_days);
}

}  // namespace

double equilibrium_moisture(double air_c, double h) {
  require(h >= 0.0 && h <= 100.0, "relative humidity is a percentage");
  const double t = 1.8 * air_c + 32.0;
  if (h < 10.0) return std::max(0.0, 0.03229 + 0.281073 * h - 0.000578 * h * t);
  if (h < 50.0) return std::max(0.0, 2.22749 + 0.160107 * h - 0.014784 * t);
  return std::max(0.0, 21.0606 + 0.005565 * h * h - 0.00035 * h * t - 0.483199 * h);
}

double fine_fuel_moisture(double air_c, double relative_humidity_percent, Sky sky, bool raining) {
  struct Surface {
    double warmer_f, humidity_share;
  };
  static constexpr std::array<Surface, 4> surface{{{25.0, 0.75}, {19.0, 0.83}, {12.0, 0.92}, {5.0, 1.0}}};
  if (raining) return 35.0;
  const Surface& s = surface[static_cast<std::size_t>(sky)];
  return 1.03 * equilibrium_moisture(air_c + s.warmer_f / 1.8, s.humidity_share * relative_humidity_percent);
}

double dry_from_wet_basis(double wet_basis) {
  require(wet_basis >= 0.0 && wet_basis < 1.0, "moisture on wet basis is a share below 1");
  return wet_basis / (1.0 - wet_basis);
}

double wet_from_dry_basis(double dry_basis) {
  require(dry_basis >= 0.0, "moisture is not negative");
  return dry_basis / (1.0 + dry_basis);
}

double day_equilibrium(const weather::Day& day) {
  const double es = weather::saturation_vapour_pressure(Celsius{day.tmax_c}).value();
  return equilibrium_moisture(day.tmax_c, std::clamp(100.0 * day.ea_kpa / es, 0.0, 100.0));
}

double dew_of(const weather::Day& day, double most_mm) {
  const double es = weather::saturation_vapour_pressure(Celsius{day.tmin_c}).value();
  return most_mm * std::clamp((day.ea_kpa / es - 0.9) / 0.1, 0.0, 1.0);
}

DryingRates rates_of(const MoistureSettings& s) {
  return {.keep_windrow = keep_after(s.lag_windrow_days),
          .keep_spread = keep_after(s.lag_spread_days),
          .keep_standing = keep_after(s.lag_standing_days),
          .rain_gain_per_mm = s.rain_gain_per_mm,
          .most = s.most};
}

double keep_of(Lay lay, const DryingRates& rates) {
  return lay == Lay::windrow ? rates.keep_windrow : rates.keep_spread;
}

double after_lag(double start, double equilibrium, double t, double tau) {
  require(tau > 0.0, "a lag is above zero");
  return equilibrium + (start - equilibrium) * std::exp(-t / tau);
}

}  // namespace aftercut::straw
