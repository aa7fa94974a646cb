#include "aftercut/burn/fire_behaviour.hpp"

#include <algorithm>
#include <cmath>

namespace aftercut::burn {
namespace {

constexpr double least_moisture_percent = 5.0;   // Source: McArthur1966 (read second-hand)
constexpr double least_curing_percent = 20.0;    // Source: Cruz2015 (read second-hand)
constexpr double least_moisture_factor = 0.001;  // Source: Cheney1998 (read second-hand)
constexpr double heat_kj_per_kg = 18600.0;       // Source: Byram1959 (read second-hand)

/// Spread below 5 km/h: still + slow U; from there on: base + gain (U - 5)^0.844.
/// Source: Cheney1998 (read second-hand)
struct SpreadCurve {
  double still, slow, base, gain;
};
SpreadCurve curve_of(Pasture pasture) {
  switch (pasture) {
    case Pasture::natural:
      return {0.054, 0.269, 1.4, 0.838};
    case Pasture::cut:
      return {0.054, 0.209, 1.1, 0.715};
    case Pasture::eaten_out:
      break;
  }
  return {0.054, 0.209, 0.55, 0.357};
}

}  // namespace

double dead_grass_moisture_percent(const FireWeather& w) {
  return std::max(least_moisture_percent, 9.58 - 0.205 * w.temperature_c + 0.138 * w.humidity_percent);
}

double curing_factor(double c) {
  if (c < least_curing_percent) return 0.0;
  return 1.036 / (1.0 + 103.989 * std::exp(-0.0996 * (c - 20.0)));
}

double moisture_factor(double m, double wind_km_h) {
  const double factor = m < 12.0            ? std::exp(-0.108 * m)
                        : wind_km_h <= 10.0 ? 0.684 - 0.0342 * m
                                            : 0.547 - 0.0228 * m;
  return std::max(least_moisture_factor, factor);
}

double head_spread_km_h(Pasture pasture, const FireWeather& w, double curing_percent) {
  const SpreadCurve c = curve_of(pasture);
  const double u = w.wind_km_h;
  const double dry = u < 5.0 ? c.still + c.slow * u : c.base + c.gain * std::pow(u - 5.0, 0.844);
  return dry * moisture_factor(dead_grass_moisture_percent(w), u) * curing_factor(curing_percent);
}

double length_to_breadth(double wind_km_h) {
  if (wind_km_h < 5.0) return 1.0;
  return std::max(1.0, 1.1 * std::pow(wind_km_h, 0.464));
}

double back_to_head(double wind_km_h) {
  const double lb = length_to_breadth(wind_km_h);
  const double eccentricity = std::sqrt(1.0 - 1.0 / (lb * lb));
  return (1.0 - eccentricity) / (1.0 + eccentricity);
}

double front_intensity_kw_per_m(KgPerHa fuel, double spread_km_h) {
  return heat_kj_per_kg * (fuel.value() / 1e4) * (spread_km_h / 3.6);
}

double flame_length_m(double intensity_kw_per_m) { return 0.0775 * std::pow(intensity_kw_per_m, 0.46); }

double chance_of_crossing(double intensity_kw_per_m, Metre width, bool trees_within_20_m) {
  const double k = trees_within_20_m ? 0.38 : 0.99;
  return 1.0 / (1.0 + std::exp(-(1.36 + 0.00036 * intensity_kw_per_m - k * width.value())));
}

double grass_danger_index(double m, double v, double w) {
  if (m < 18.8) return 3.35 * w * std::exp(-0.0897 * m + 0.0403 * v);
  // One open copy multiplies 1.686 by the moisture: wrong, the branches then do not meet at 18.8.
  if (m < 30.0) return 0.299 * w * std::exp(-1.686 + 0.0403 * v) * (30.0 - m);
  return 0.0;
}

GrassDanger grass_danger(const FireWeather& w, double curing_percent, double fuel_t_per_ha) {
  const double m = (97.7 + 4.06 * w.humidity_percent) / (w.temperature_c + 6.0) -
                   0.00854 * w.humidity_percent + 3000.0 / curing_percent - 30.0;
  return {m, grass_danger_index(m, w.wind_km_h, fuel_t_per_ha)};
}

// In the units of the source: feet, pounds, minutes, BTU.
double short_grass_spread_km_h(double moisture_percent, double midflame_km_h) {
  constexpr double load = 0.034, surface = 3500.0, depth = 1.0, heat = 8000.0, extinction = 0.12;
  constexpr double particle_density = 32.0, minerals = 0.0555,
                   mineral_damping = 0.4174;  // 0.174 x 0.010^-0.19
  constexpr double ft_min_per_km_h = 1000.0 / 0.3048 / 60.0;
  const double moisture = moisture_percent / 100.0;
  if (moisture >= extinction) return 0.0;
  const double bulk = load / depth, packing = bulk / particle_density;
  const double relative = packing / (3.348 * std::pow(surface, -0.8189));
  const double a = 1.0 / (4.774 * std::pow(surface, 0.1) - 7.27);
  const double most = std::pow(surface, 1.5) / (495.0 + 0.0594 * std::pow(surface, 1.5));
  const double velocity = most * std::pow(relative, a) * std::exp(a * (1.0 - relative));
  const double r = moisture / extinction;
  const double damping = 1.0 - 2.59 * r + 5.11 * r * r - 3.52 * r * r * r;
  const double reaction = velocity * load / (1.0 + minerals) * heat * damping * mineral_damping;
  const double flux =
      std::exp((0.792 + 0.681 * std::sqrt(surface)) * (packing + 0.1)) / (192.0 + 0.2595 * surface);
  const double c = 7.47 * std::exp(-0.133 * std::pow(surface, 0.55)), b = 0.02526 * std::pow(surface, 0.54);
  const double e = 0.715 * std::exp(-3.59e-4 * surface);
  const double wind = c * std::pow(midflame_km_h * ft_min_per_km_h, b) * std::pow(relative, -e);
  const double sink = bulk * std::exp(-138.0 / surface) * (250.0 + 1116.0 * moisture);
  return reaction * flux * (1.0 + wind) / sink / ft_min_per_km_h;
}

}  // namespace aftercut::burn
