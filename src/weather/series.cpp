#include "aftercut/weather/series.hpp"

#include <algorithm>
#include <cstddef>
#include <iterator>

#include "aftercut/weather/evapotranspiration.hpp"
#include "aftercut/weather/row_checks.hpp"

namespace aftercut::weather {
namespace {

constexpr std::size_t kIssuesListed = 30;

// One row for each calendar day from the first to the last.
std::vector<Row> each_day(const std::vector<Row>& rows) {
  std::vector<Row> days(static_cast<std::size_t>(rows.back().date - rows.front().date + 1));
  for (std::size_t d = 0; d < days.size(); ++d) days[d].date = rows.front().date + static_cast<int>(d);
  for (const Row& row : rows) days[static_cast<std::size_t>(row.date - rows.front().date)] = row;
  return days;
}

// The column with straight lines between recorded days; first and last day are recorded.
std::vector<double> between_neighbours(const std::vector<Row>& days, std::optional<double> Row::*column) {
  std::vector<double> values;
  for (std::size_t d = 0; d < days.size(); ++d) {
    if (const auto& value = days[d].*column) {
      const std::size_t last = values.size();  // first day still to fill
      for (std::size_t k = last; k < d; ++k) {
        const double share = static_cast<double>(k - last + 1) / static_cast<double>(d - last + 1);
        values.push_back(values[last - 1] + share * (*value - values[last - 1]));
      }
      values.push_back(*value);
    }
  }
  return values;
}

double vapour_pressure_of(const Row& row, const Day& day, const GapRules& rules) {
  if (row.dewpoint_c) return saturation_vapour_pressure(Celsius{*row.dewpoint_c}).value();
  if (row.rh_mean_percent) {
    return vapour_pressure_from_mean_humidity(Celsius{day.tmin_c}, Celsius{day.tmax_c}, *row.rh_mean_percent)
        .value();
  }
  return saturation_vapour_pressure(Celsius{day.tmin_c - rules.dewpoint_below_tmin_c}).value();
}

double wind_of(const Row& row, const GapRules& rules) {
  if (!row.wind_m_s) return rules.mean_wind_m_s;
  if (rules.wind_height_m == 2.0) return *row.wind_m_s;
  return wind_at_2m(MetrePerSecond{*row.wind_m_s}, Metre{rules.wind_height_m}).value();
}

double solar_of(const Row& row, const Day& day, const Site& site) {
  if (row.solar_mj_m2) return *row.solar_mj_m2;
  const auto ra = extraterrestrial_radiation(site.latitude_deg, day_of_year(row.date));
  return solar_from_temperature_range(Celsius{day.tmin_c}, Celsius{day.tmax_c}, ra, Metre{site.elevation_m},
                                      site.near_coast)
      .value();
}

// Temperatures of the day: a filled one gives way to the recorded one when they cross.
Day with_temperatures(const Row& row, double tmin_c, double tmax_c) {
  Day day;
  day.tmin_c = row.tmin_c ? tmin_c : std::min(tmin_c, tmax_c);
  day.tmax_c = row.tmax_c ? tmax_c : std::max(tmax_c, day.tmin_c);
  return day;
}

Estimated counted(const std::vector<Row>& days) {
  const auto count = [&](auto missing) {
    return static_cast<int>(std::count_if(days.begin(), days.end(), missing));
  };
  Estimated e;
  e.temperature_days = count([](const Row& r) { return !r.tmin_c || !r.tmax_c; });
  e.rain_days = count([](const Row& r) { return !r.rain_mm; });
  e.humidity_days = count([](const Row& r) { return !r.dewpoint_c && !r.rh_mean_percent; });
  e.wind_days = count([](const Row& r) { return !r.wind_m_s; });
  e.radiation_days = count([](const Row& r) { return !r.solar_mj_m2; });
  return e;
}

}  // namespace

Result<Series> complete(const std::vector<Row>& rows, const Site& site, const GapRules& rules,
                        const std::string& file) {
  Issues issues = row_faults(rows, site, rules, file);
  if (!issues.empty()) return shortened(std::move(issues), kIssuesListed, file);
  const std::vector<Row> days = each_day(rows);
  const std::vector<double> tmin = between_neighbours(days, &Row::tmin_c);
  const std::vector<double> tmax = between_neighbours(days, &Row::tmax_c);
  Series series{rows.front().date, {}, counted(days)};
  series.days.reserve(days.size());
  for (std::size_t d = 0; d < days.size(); ++d) {
    Day day = with_temperatures(days[d], tmin[d], tmax[d]);
    day.rain_mm = days[d].rain_mm.value_or(0.0);
    day.ea_kpa = vapour_pressure_of(days[d], day, rules);
    day.wind_2m_m_s = wind_of(days[d], rules);
    day.solar_mj_m2 = solar_of(days[d], day, site);
    series.days.push_back(day);
  }
  return series;
}

}  // namespace aftercut::weather
