#include "roads.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace aftercut::audit {
namespace {

constexpr double minute_slack = 1e-9 * 60.0;

/// Days back to the last day of much rain; large when there was none.
int since_much_rain(const farm::Travel& travel, const std::vector<double>& rain_mm, int day) {
  for (int d = day; d >= 0; --d)
    if (rain_mm[static_cast<std::size_t>(d)] > travel.soft_rain_mm) return day - d;
  return static_cast<int>(rain_mm.size());
}

}  // namespace

int move_minutes(const farm::Farm& farm, int from, int to) {
  if (from == to) return 0;
  double minutes = 60.0 * farm.work_day.move_between_fields.value();
  if (!farm.travel.km.empty())
    minutes += 60.0 * farm.travel.km.at(static_cast<std::size_t>(from)).at(static_cast<std::size_t>(to)) /
               farm.work_day.road_speed.value();
  return static_cast<int>(std::ceil(minutes - minute_slack));
}

Findings check_ways(const farm::Farm& farm, const Place& place, const plan::Work& w,
                    const std::vector<double>& rain_mm) {
  Findings f;
  const int minutes = w.end_min - w.start_min;
  f.expect(w.finishes || minutes >= farm.work_day.least_stay_min, "stay too short", place, [&] {
    return Texts{fmt::format("{} min", minutes),
                 fmt::format("at least {} min", farm.work_day.least_stay_min)};
  });
  const auto& op = farm.book.operations[static_cast<std::size_t>(w.operation)];
  if (op.implement != "bale_wagon" || farm.travel.access.empty()) return f;
  const bool hard = farm.travel.access.at(static_cast<std::size_t>(w.field)) == farm::Access::hard;
  const int since = since_much_rain(farm.travel, rain_mm, w.day);
  f.expect(hard || since > farm.travel.soft_days, "loaded wagon on a soft road", place, [&] {
    return Texts{fmt::format("{} days after much rain", since),
                 fmt::format("more than {} days", farm.travel.soft_days)};
  });
  return f;
}

}  // namespace aftercut::audit
