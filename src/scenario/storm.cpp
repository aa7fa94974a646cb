#include "aftercut/scenario/storm.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "aftercut/core/require.hpp"

namespace aftercut::scenario {
namespace {

constexpr double mm_per_inch = 25.4;  // by definition. Source: ExactUnits (recalled)

double rain_of(const weather::Year& year, int from, int days) {
  double sum = 0.0;
  for (int d = from; d < std::min(from + days, static_cast<int>(year.days.size())); ++d)
    sum += year.days[static_cast<std::size_t>(d)].rain_mm;
  return sum;
}

}  // namespace

std::string depth_words(const farm::Farm& farm, double mm) {
  return farm.units == farm::UnitSystem::us ? fmt::format("{:.1f} inches", mm / mm_per_inch)
                                            : fmt::format("{:.0f} mm", mm);
}

std::string storm_words(const farm::Farm& farm, const plan::Storm& storm) {
  return fmt::format("{} in {} day{}", depth_words(farm, storm.rain_mm), storm.days,
                     storm.days == 1 ? "" : "s");
}

plan::Storm storm_at(const weather::Years& years, const farm::StormSettings& settings, int day) {
  require(!years.years.empty(), "a storm comes out of a record");
  std::vector<plan::Storm> wettest;
  for (const weather::Year& year : years.years) {
    const int last = static_cast<int>(year.days.size()) - settings.days;
    plan::Storm most{.year = year.year, .day = std::clamp(day, 0, last), .days = settings.days};
    for (int d = std::max(0, day - storm_season_days); d <= std::min(last, day + storm_season_days - 1); ++d)
      if (const double rain = rain_of(year, d, settings.days); rain > most.rain_mm) {
        most.day = d;
        most.rain_mm = rain;
      }
    wettest.push_back(most);
  }
  std::sort(wettest.begin(), wettest.end(), [](const plan::Storm& a, const plan::Storm& b) {
    return std::tuple{a.rain_mm, a.year} < std::tuple{b.rain_mm, b.year};
  });
  const double below = (1.0 - 1.0 / settings.one_year_in) * static_cast<double>(wettest.size());
  return wettest[static_cast<std::size_t>(std::max(1.0, std::ceil(below - 1e-9))) - 1];
}

weather::Year with_storm(weather::Year year, const weather::Years& record, const plan::Storm& storm,
                         int day) {
  if (rain_of(year, day, storm.days) >= storm.rain_mm) return year;
  const auto from = std::find_if(record.years.begin(), record.years.end(),
                                 [&](const weather::Year& y) { return y.year == storm.year; });
  require(from != record.years.end(), "the storm fell in a year of the record");
  for (int k = 0; k < storm.days && day + k < static_cast<int>(year.days.size()); ++k) {
    const auto to = static_cast<std::size_t>(day + k), at = static_cast<std::size_t>(storm.day + k);
    year.days[to] = from->days[at];
    year.et0_mm[to] = from->et0_mm[at];
  }
  return year;
}

}  // namespace aftercut::scenario
