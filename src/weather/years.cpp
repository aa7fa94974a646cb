#include <algorithm>
#include <cstddef>

#include "aftercut/weather/evapotranspiration.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::weather {
namespace {

// The season's first day in another year; 29 Feb becomes 28 Feb in a common year.
Date start_in(int year, Date season_first) {
  const int month = month_of(season_first);
  const int day = day_of_month(season_first);
  return make_date(year, month, month == 2 && day == 29 && !is_leap_year(year) ? 28 : day);
}

double et0_of(const Day& day, const Site& site, Date date) {
  return penman_monteith(day, site, day_of_year(date)).value();
}

std::vector<double> et0_of(const Series& series, const Site& site) {
  std::vector<double> et0;
  et0.reserve(series.days.size());
  for (std::size_t d = 0; d < series.days.size(); ++d) {
    et0.push_back(et0_of(series.days[d], site, series.first + static_cast<int>(d)));
  }
  return et0;
}

}  // namespace

Years lay_on_season(const Series& series, const Site& site, Date season_first, int season_days,
                    std::optional<int> from, std::optional<int> to) {
  Years laid{season_first, {}};
  require(season_days > 0, "a season has at least one day");
  if (series.days.empty()) return laid;
  const int recorded = static_cast<int>(series.days.size());
  const int first_year = std::max(year_of(series.first), from.value_or(year_of(series.first)));
  const int last = year_of(series.first + (recorded - 1));
  const std::vector<double> et0 = et0_of(series, site);  // once a day, though seasons may overlap
  for (int year = first_year; year <= std::min(last, to.value_or(last)); ++year) {
    const int begin = start_in(year, season_first) - series.first;
    if (begin < 0 || begin + season_days > recorded) continue;
    laid.years.push_back({year,
                          {series.days.begin() + begin, series.days.begin() + begin + season_days},
                          {et0.begin() + begin, et0.begin() + begin + season_days}});
  }
  return laid;
}

void put_forecast_in_front(Years& years, const Series& forecast, const Site& site) {
  for (std::size_t i = 0; i < forecast.days.size(); ++i) {
    const Date date = forecast.first + static_cast<int>(i);
    const int d = date - years.season_first;
    if (d < 0) continue;
    const double et0 = et0_of(forecast.days[i], site, date);
    for (Year& year : years.years) {
      if (static_cast<std::size_t>(d) >= year.days.size()) continue;
      year.days[static_cast<std::size_t>(d)] = forecast.days[i];
      year.et0_mm[static_cast<std::size_t>(d)] = et0;
    }
  }
}

std::optional<Series> days_seen(const Series& record, const std::optional<Series>& so_far, Date first,
                                Date until) {
  const auto of = [](const Series& s, Date date) -> const Day* {
    const int at = date - s.first;
    return at >= 0 && at < static_cast<int>(s.days.size()) ? &s.days[static_cast<std::size_t>(at)] : nullptr;
  };
  Series seen{first, {}, {}};
  for (Date date = first; date < until; date = date + 1) {
    const Day* day = so_far ? of(*so_far, date) : nullptr;
    if (day == nullptr) day = of(record, date);
    if (day == nullptr) break;
    seen.days.push_back(*day);
  }
  if (seen.days.empty()) return std::nullopt;
  return seen;
}

}  // namespace aftercut::weather
