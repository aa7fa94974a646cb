#include "ways.hpp"

#include <algorithm>

#include "aftercut/core/numbers.hpp"

namespace aftercut::dispatch {

std::vector<std::vector<int>> move_minutes(const farm::Farm& farm) {
  const std::size_t n = farm.fields.size();
  std::vector<std::vector<int>> minutes(n, std::vector<int>(n, 0));
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = 0; b < n; ++b) {
      const double way_h =
          farm.travel.km.empty() ? 0.0 : farm.travel.km[a][b] / farm.work_day.road_speed.value();
      if (a != b)
        minutes[a][b] = static_cast<int>(ceil_minutes(farm.work_day.move_between_fields.value() + way_h));
    }
  return minutes;
}

std::vector<char> soft_road_days(const farm::Farm& farm, const season::YearDrivers& year) {
  std::vector<char> soft(year.rain_mm.size(), 0);
  int left = 0;
  for (std::size_t d = 0; d < soft.size(); ++d) {
    left = year.rain_mm[d] > farm.travel.soft_rain_mm ? farm.travel.soft_days + 1 : std::max(0, left - 1);
    soft[d] = left > 0 ? 1 : 0;
  }
  return soft;
}

std::vector<std::vector<std::size_t>> linked(const farm::Farm& farm, farm::LinkKind kind) {
  std::vector<std::vector<std::size_t>> all(farm.fields.size());
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    for (const farm::Link& link : farm.fields[f].links)
      for (std::size_t o = 0; o < farm.fields.size(); ++o)
        if (link.kind == kind && farm.fields[o].id == link.other) all[f].push_back(o);
  return all;
}

std::vector<int> season_days(const farm::Calendar& season) {
  std::vector<int> days(32 * 13, -1);
  for (int month = 1; month <= 12; ++month)
    for (int day = 1; day <= 31; ++day) {
      const bool thirty = month == 4 || month == 6 || month == 9 || month == 11;
      if (day > (month == 2 ? 29 : thirty ? 30 : 31)) continue;
      days[static_cast<std::size_t>(32 * month + day)] = season.day(MonthDay{month, day});
    }
  return days;
}

}  // namespace aftercut::dispatch
