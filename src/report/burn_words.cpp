#include "burn_words.hpp"

#include <cmath>

#include "aftercut/core/customary.hpp"

namespace aftercut::report {
namespace {

constexpr double feet_per_m = 1.0 / 0.3048, miles_per_km = 1.0 / 1.609344;

bool customary(const farm::Farm& farm) { return farm.units == farm::UnitSystem::us; }

}  // namespace

std::string standing_words(const farm::Farm& farm, const season::BurnStanding& s) {
  return farm.burning ? burn::to_text(s.finding.standing, *farm.burning) : "unknown";
}

std::string clock_words(double hour) {
  const auto minutes = std::lround(hour * 60.0);
  return fmt::format("{:02d}:{:02d}", minutes / 60, minutes % 60);
}

std::string metres(const farm::Farm& farm, double m) {
  if (!std::isfinite(m)) return "none entered";
  return customary(farm) ? with_thousands(m * feet_per_m) + " ft" : with_thousands(m) + " m";
}

std::string wind_words(const farm::Farm& farm, double km_h) {
  return customary(farm) ? fmt::format("{:.0f} mph", km_h * miles_per_km) : fmt::format("{:.0f} km/h", km_h);
}

std::string temperature_words(const farm::Farm& farm, double c) {
  return customary(farm) ? fmt::format("{:.0f} °F", c * 1.8 + 32.0) : fmt::format("{:.0f} °C", c);
}

std::string mass_words(const farm::Farm& farm, double kg) {
  return customary(farm) ? fmt::format("{:.0f} tons", kg / kg_per_short_ton)
                         : fmt::format("{:.0f} t", kg / 1000.0);
}

std::string place_words(geo::Point p) {
  return fmt::format("{:.4f} {}, {:.4f} {}", std::abs(p.y), p.y < 0.0 ? "S" : "N", std::abs(p.x),
                     p.x < 0.0 ? "W" : "E");
}

std::string task_moment(const season::BurnTask& task) {
  if (!task.by_day || !task.by_hour) return "";
  return fmt::format("{} {} {}", task.name == "watch" ? "until" : "by", iso(*task.by_day),
                     clock_words(*task.by_hour));
}

std::string weather_words(const farm::Farm& farm, const season::BurnStanding& s) {
  if (!s.sky) return "not known: neither forecast nor record covers the day";
  return fmt::format("{}: {} to {}, humidity {:.0f} % at the highest, mean wind {} at 2 m, rain {:.1f} mm",
                     s.sky_from, temperature_words(farm, s.sky->tmin_c),
                     temperature_words(farm, s.sky->tmax_c), 100.0 * s.facts.humidity.value_or(0.0),
                     wind_words(farm, 3.6 * s.sky->wind_2m_m_s), s.sky->rain_mm);
}

std::string one_in(double chance) {
  if (chance < 0.01) return "under 1 in 100";
  return fmt::format("{:.0f} in 100", 100.0 * chance);
}

}  // namespace aftercut::report
