#include "burning.hpp"

#include <fmt/format.h>

namespace aftercut::audit {
namespace {

constexpr int no_reset_yet = 100000;
constexpr double area_slack_ha = 1e-6;

Texts hectares(double found, double limit) {
  return {fmt::format("{:.4f} ha", found), fmt::format("at most {:.4f} ha", limit)};
}

Findings check_area(const Facts& facts, const Place& place, const plan::Work& w, const BurnDay& day) {
  Findings f;
  const burn::Limits& l = facts.burn_limits;
  const double area = facts.farm().fields[static_cast<std::size_t>(w.field)].area.value();
  f.expect(w.finishes && w.area_ha > area - 2.0 * area_slack_ha, "part of a field burned", place, [&] {
    return Texts{fmt::format("{:.4f} ha", w.area_ha), fmt::format("the whole field of {:.4f} ha", area)};
  });
  if (l.daily_area_ha) {
    const double today = day.burned_today_ha + w.area_ha;
    f.expect(today <= *l.daily_area_ha + area_slack_ha, "daily burn area", place,
             [&] { return hectares(today, *l.daily_area_ha); });
  }
  if (l.season_share) {
    const double most = *l.season_share * facts.farm_area_ha;
    const double season = day.burned_season_ha + w.area_ha;
    f.expect(season <= most + area_slack_ha, "season burn share", place,
             [&] { return hectares(season, most); });
  }
  return f;
}

Findings check_weather(const Facts& facts, const Place& place, const FieldReplay& field, const BurnDay& day) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  const burn::Limits& l = facts.burn_limits;
  const bool windrow = field.life.lay() == straw::Lay::windrow;
  const int dry = (windrow ? l.dry_days_windrow : l.dry_days_spread).value_or(0);
  const int since_cut =
      place.day - farm.season.day(farm.fields[static_cast<std::size_t>(place.field)].harvest);
  const auto whole = [&](int found) {
    return Texts{fmt::format("{} days", found), fmt::format("at least {} days", dry)};
  };
  f.expect(since_cut >= dry, "drying days before a burn", place, [&] { return whole(since_cut); });
  f.expect(day.days_since_rain_reset >= dry, "drying days before a burn", place,
           [&] { return whole(day.days_since_rain_reset); });
  const bool calm = !l.most_wind_m_s || day.wind_m_s <= *l.most_wind_m_s;
  const bool airy = !l.least_wind_m_s || day.wind_m_s >= *l.least_wind_m_s;
  f.expect(calm && airy, "wind on a burn day", place, [&] {
    return Texts{fmt::format("{:.2f} m/s", day.wind_m_s), "inside the limits"};
  });
  return f;
}

}  // namespace

std::vector<int> days_since_rain_reset(const burn::Limits& limits, const std::vector<double>& rain_mm) {
  std::vector<int> since(rain_mm.size(), no_reset_yet);
  if (!limits.rain_reset_mm) return since;
  int last = -no_reset_yet;
  for (std::size_t d = 0; d < rain_mm.size(); ++d) {
    if (rain_mm[d] > *limits.rain_reset_mm) last = static_cast<int>(d);
    since[d] = std::min(static_cast<int>(d) - last, no_reset_yet);
  }
  return since;
}

Findings check_burn(const Facts& facts, const Place& place, const FieldReplay& field, const plan::Work& w,
                    const BurnDay& day) {
  Findings f;
  const burn::Limits& l = facts.burn_limits;
  f.expect(day.called, "burn on a day not called", place, [] {
    return Texts{"a burn", "a day that the authority calls"};
  });
  f += check_area(facts, place, w, day);
  f += check_weather(facts, place, field, day);
  const double from = l.start_hour.value_or(0.0) * 60.0, to = l.end_hour.value_or(24.0) * 60.0;
  f.expect(w.start_min >= from - 1e-6 && w.end_min <= to + 1e-6, "burn outside the clock hours", place, [&] {
    return Texts{fmt::format("minutes {} to {}", w.start_min, w.end_min),
                 fmt::format("minutes {:.0f} to {:.0f}", from, to)};
  });
  return f;
}

}  // namespace aftercut::audit
