#include "aftercut/weather/sun.hpp"

#include <cmath>
#include <numbers>

namespace aftercut::weather {
namespace {

constexpr double kZenithDeg =
    90.833;  // sun's upper edge on the horizon, refraction included. Source: NOAAsolar (read)

struct SunPosition {
  double equation_of_time_min = 0.0;
  double declination_rad = 0.0;
};

// At noon of the day, g in radians. Source: NOAAsolar (read)
SunPosition sun_position(int day_of_year, bool leap) {
  const double g = 2.0 * std::numbers::pi / (leap ? 366.0 : 365.0) * (day_of_year - 1);
  const double equation = 229.18 * (0.000075 + 0.001868 * std::cos(g) - 0.032077 * std::sin(g) -
                                    0.014615 * std::cos(2.0 * g) - 0.040849 * std::sin(2.0 * g));
  const double declination = 0.006918 - 0.399912 * std::cos(g) + 0.070257 * std::sin(g) -
                             0.006758 * std::cos(2.0 * g) + 0.000907 * std::sin(2.0 * g) -
                             0.002697 * std::cos(3.0 * g) + 0.00148 * std::sin(3.0 * g);
  return {equation, declination};
}

// Cosine of the hour angle at sunrise; beyond 1 the sun stays down, beyond -1 it stays up.
double cos_hour_angle(double latitude_deg, double declination_rad) {
  const double phi = latitude_deg * radians_per_degree;
  return std::cos(kZenithDeg * radians_per_degree) / (std::cos(phi) * std::cos(declination_rad)) -
         std::tan(phi) * std::tan(declination_rad);
}

}  // namespace

SunTimes sun_times(const Site& site, Date date) {
  const auto [equation, declination] = sun_position(day_of_year(date), is_leap_year(year_of(date)));
  const double noon = 720.0 - 4.0 * site.longitude_deg - equation + 60.0 * site.utc_offset_h;
  const double cosine = cos_hour_angle(site.latitude_deg, declination);
  if (cosine >= 1.0) return {noon, noon, noon, 0.0};
  if (cosine <= -1.0) return {noon, noon, noon, 24.0};
  const double half_day = 4.0 * std::acos(cosine) / radians_per_degree;
  return {noon - half_day, noon, noon + half_day, half_day / 30.0};
}

}  // namespace aftercut::weather
