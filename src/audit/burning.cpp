#include "burning.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/weather/sun.hpp"

namespace aftercut::audit {
namespace {

constexpr int no_reset_yet = 100000;
constexpr double burn_slack_ha = 1e-6;

Texts hectares(double found, double limit) {
  return {fmt::format("{:.4f} ha", found), fmt::format("at most {:.4f} ha", limit)};
}

const farm::Field& field_at(const Facts& facts, const Place& place) {
  return facts.farm().fields[static_cast<std::size_t>(place.field)];
}

/// From one month-day to another, both in; may run over New Year.
bool spans(const std::optional<MonthDay>& from, const std::optional<MonthDay>& to, MonthDay md) {
  if (!from || !to) return false;
  return *from <= *to ? (*from <= md && md <= *to) : (md >= *from || md <= *to);
}

Findings check_area(const Facts& facts, const Place& place, const plan::Work& w, const BurnDay& day) {
  Findings f;
  const burn::Limits& l = facts.burn_limits;
  const double area = field_at(facts, place).area.value();
  f.expect(w.finishes && w.area_ha > area - 2.0 * burn_slack_ha, "part of a field burned", place, [&] {
    return Texts{fmt::format("{:.4f} ha", w.area_ha), fmt::format("the whole field of {:.4f} ha", area)};
  });
  const auto most = [&](double found, std::optional<double> limit, const char* rule) {
    if (limit)
      f.expect(found <= *limit + burn_slack_ha, rule, place, [&] { return hectares(found, *limit); });
  };
  most(w.area_ha, l.burn_area_ha, "area of one burn");
  most(day.burned_today_ha + w.area_ha, l.daily_area_ha, "daily burn area");
  most(day.burned_season_ha + w.area_ha, l.season_area_ha, "season burn area");
  if (l.season_share)
    most(day.burned_season_ha + w.area_ha, *l.season_share * facts.farm_area_ha, "season burn share");
  return f;
}

Findings check_drying(const Facts& facts, const Place& place, const FieldReplay& field, const BurnDay& day) {
  Findings f;
  const burn::Limits& l = facts.burn_limits;
  const bool windrow = field.life.lay() == straw::Lay::windrow;
  const int dry = (windrow ? l.dry_days_windrow : l.dry_days_spread).value_or(0);
  const int since_cut = place.day - facts.farm().season.day(field_at(facts, place).harvest);
  for (const int since : {since_cut, day.days_since_rain_reset})
    f.expect(since >= dry, "drying days before a burn", place, [&] {
      return Texts{fmt::format("{} days", since), fmt::format("at least {} days", dry)};
    });
  return f;
}

Findings check_sky(const Facts& facts, const Place& place, const BurnDay& day) {
  Findings f;
  const burn::Limits& l = facts.burn_limits;
  const auto inside = [&](double value, std::optional<double> least, std::optional<double> most,
                          const char* rule) {
    f.expect((!least || *least <= value) && (!most || value <= *most), rule, place, [&] {
      return Texts{fmt::format("{:.3f}", value), "inside the limits"};
    });
  };
  inside(day.sky.wind_2m_m_s, l.least_wind_m_s, l.most_wind_m_s, "wind on a burn day");
  inside(day.sky.tmax_c, l.least_temperature_c, l.most_temperature_c, "temperature on a burn day");
  // Saturation at the highest temperature. Source: Allen1998 eq. 11 (recalled)
  const double full_kpa = 0.6108 * std::exp(17.27 * day.sky.tmax_c / (day.sky.tmax_c + 237.3));
  inside(std::min(1.0, day.sky.ea_kpa / full_kpa), l.least_humidity, l.most_humidity,
         "humidity on a burn day");
  return f;
}

/// All that must hold for a burn of the whole field but the call and the hours.
Findings check_openness(const Facts& facts, const Place& place, const FieldReplay& field, const plan::Work& w,
                        const BurnDay& day) {
  Findings f;
  const Date date = facts.farm().season.date(place.day);
  f.expect(calendar_open(facts, field_at(facts, place), date), "burn on a closed day", place, [&] {
    return Texts{iso(date), "a day that windows, weekdays, dates and the rule of early harvests leave open"};
  });
  f += check_area(facts, place, w, day);
  f += check_drying(facts, place, field, day);
  f += check_sky(facts, place, day);
  return f;
}

plan::Work whole_field(const Facts& facts, plan::Work w) {
  w.area_ha = facts.farm().fields[static_cast<std::size_t>(w.field)].area.value();
  w.finishes = true;
  return w;
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

bool calendar_open(const Facts& facts, const farm::Field& field, Date day) {
  const burn::Limits& l = facts.burn_limits;
  const MonthDay md{month_of(day), day_of_month(day)};
  const bool windows = l.autumn_from || l.autumn_to || l.spring_from || l.spring_to;
  if (windows && !spans(l.autumn_from, l.autumn_to, md) && !spans(l.spring_from, l.spring_to, md))
    return false;
  for (const int banned : l.weekdays_banned)
    if (banned == weekday(day)) return false;
  for (const MonthDay& banned : l.dates_banned)
    if (banned == md) return false;
  const MonthDay cut{month_of(field.harvest), day_of_month(field.harvest)};
  const bool early = l.early_before && cut < *l.early_before && !field.burn.leave;
  return !(early && spans(l.early_closed_from, l.early_closed_to, md));
}

BurnHours burn_hours(const Facts& facts, Date day) {
  const burn::Limits& l = facts.burn_limits;
  const weather::SunTimes sun = weather::sun_times(facts.farm().site, day);
  double from = 60.0 * l.start_hour.value_or(0.0), until = 60.0 * l.end_hour.value_or(24.0);
  if (l.after_sunrise_h) from = std::max(from, sun.sunrise_min + 60.0 * *l.after_sunrise_h);
  if (l.before_sunset_h) until = std::min(until, sun.sunset_min - 60.0 * *l.before_sunset_h);
  return {static_cast<int>(std::ceil(from - 1e-9)), static_cast<int>(std::floor(until + 1e-9))};
}

Findings check_burn(const Facts& facts, const Place& place, const FieldReplay& field, const plan::Work& w,
                    const BurnDay& day) {
  Findings f;
  f.expect(day.called, "burn on a day not called", place, [] {
    return Texts{"a burn", "a day that the authority calls"};
  });
  f += check_openness(facts, place, field, w, day);
  const BurnHours hours = burn_hours(facts, facts.farm().season.date(place.day));
  f.expect(w.start_min >= hours.from_min && w.end_min <= hours.until_min, "burn outside the clock hours",
           place, [&] {
             return Texts{fmt::format("minutes {} to {}", w.start_min, w.end_min),
                          fmt::format("minutes {} to {}", hours.from_min, hours.until_min)};
           });
  return f;
}

plan::DaysNotBurned count_not_burned(const Facts& facts, const Place& place, const FieldReplay& field,
                                     const BurnDay& day) {
  plan::DaysNotBurned count = field.run.not_burned;
  const farm::Farm& farm = facts.farm();
  const method::Operation* op = operation_of(farm, field.standing);
  if (field.pass_ends || op == nullptr || !op->burning) return count;
  const bool its_day = check_dates(facts, place, field.standing).audit.ok() &&
                       calendar_open(facts, field_at(facts, place), farm.season.date(place.day));
  if (!its_day) return count;
  const bool dry = check_conditions(farm, place, *op, field.mask).audit.ok() &&
                   check_ruts(place, *op, field.life.rutted()).audit.ok() &&
                   check_drying(facts, place, field, day).audit.ok();
  if (!day.called)
    ++count.not_called;
  else if (!dry)
    ++count.too_wet;
  else if (!check_sky(facts, place, day).audit.ok())
    ++count.out_of_limits;
  else
    ++count.no_room;
  return count;
}

Findings check_wait(const Facts& facts, const Place& place, const FieldReplay& field, const plan::Work& w,
                    const BurnDay& day) {
  Findings f;
  f.expect(!day.called, "waited on a called day", place, [] {
    return Texts{"a crew that waits", "a burn, or other work"};
  });
  const bool bare = w.area_ha == 0.0 && w.fuel_l == 0.0 && !w.finishes && w.tractor == plan::none &&
                    w.implement == plan::none;
  f.expect(bare, "wait with work in it", place, [] {
    return Texts{"area, fuel or machines", "people alone"};
  });
  return f += check_openness(facts, place, field, whole_field(facts, w), day);
}

}  // namespace aftercut::audit
