#include "aftercut/weather/short_record.hpp"

#include <algorithm>
#include <cstdlib>

#include "aftercut/core/require.hpp"
#include "aftercut/weather/evapotranspiration.hpp"

namespace aftercut::weather {
namespace {

constexpr int year_days = 365;

int calendar_distance(Date a, Date b) {
  const int apart = std::abs(day_of_year(a) - day_of_year(b));
  return std::min(apart, year_days - std::min(apart, year_days));
}

}  // namespace

Years stretched_over_season(const Series& series, const Site& site, Date season_first, int season_days) {
  require(!series.days.empty(), "a record holds at least one day");
  Years years{.season_first = season_first, .years = {}};
  Year& year = years.years.emplace_back();
  year.year = year_of(series.first);
  for (int d = 0; d < season_days; ++d) {
    const Date wanted = season_first + d;
    std::size_t best = 0;
    for (std::size_t i = 1; i < series.days.size(); ++i)
      if (calendar_distance(series.first + static_cast<int>(i), wanted) <
          calendar_distance(series.first + static_cast<int>(best), wanted))
        best = i;
    year.days.push_back(series.days[best]);
    year.et0_mm.push_back(penman_monteith(series.days[best], site, day_of_year(wanted)).value());
  }
  return years;
}

}  // namespace aftercut::weather
