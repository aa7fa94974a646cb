#include "rule_values.hpp"

namespace aftercut::burn {
namespace {

/// The row, if it sets a limit.
const Rule* limit_row(const Jurisdiction& j, std::string_view name) {
  const Rule* rule = find_rule(j, name);
  return rule == nullptr || says_none(*rule) ? nullptr : rule;
}

std::optional<MonthDay> day_in(const Jurisdiction& j, std::string_view name) {
  const Rule* rule = limit_row(j, name);
  return rule == nullptr ? std::nullopt : month_day_of(*rule);
}

std::optional<double> number_in(const Jurisdiction& j, std::string_view name) {
  const Rule* rule = limit_row(j, name);
  return rule == nullptr ? std::nullopt : number_of(*rule, known_rule(name)->measure);
}

std::optional<int> whole_in(const Jurisdiction& j, std::string_view name) {
  const std::optional<double> value = number_in(j, name);
  return value ? std::optional<int>{static_cast<int>(*value)} : std::nullopt;
}

bool yes_in(const Jurisdiction& j, std::string_view name) { return number_in(j, name).value_or(0.0) > 0.0; }

std::optional<std::vector<std::string>> zones_in(const Jurisdiction& j, std::string_view name) {
  const Rule* rule = limit_row(j, name);
  return rule == nullptr ? std::nullopt : list_of(*rule, Measure::list);
}

Limits with_calendar(Limits l, const Jurisdiction& j) {
  l.autumn_from = day_in(j, "autumn_from");
  l.autumn_to = day_in(j, "autumn_to");
  l.spring_from = day_in(j, "spring_from");
  l.spring_to = day_in(j, "spring_to");
  if (const Rule* rule = limit_row(j, "weekdays_banned"))
    l.weekdays_banned = weekdays_of(*rule).value_or(std::vector<int>{});
  if (const Rule* rule = limit_row(j, "dates_banned"))
    l.dates_banned = dates_of(*rule).value_or(std::vector<MonthDay>{});
  l.zones_even_years = zones_in(j, "zones_even_years");
  l.zones_odd_years = zones_in(j, "zones_odd_years");
  l.early_before = day_in(j, "early_harvest_before");
  l.early_closed_from = day_in(j, "early_closed_from");
  l.early_closed_to = day_in(j, "early_closed_to");
  l.start_hour = number_in(j, "start_from");
  l.end_hour = number_in(j, "start_until");
  l.after_sunrise_h = number_in(j, "after_sunrise");
  l.before_sunset_h = number_in(j, "before_sunset");
  return l;
}

Limits with_weather(Limits l, const Jurisdiction& j) {
  l.dry_days_spread = whole_in(j, "dry_days_spread");
  l.dry_days_windrow = whole_in(j, "dry_days_windrow");
  l.rain_reset_mm = number_in(j, "rain_reset");
  l.most_wind_m_s = number_in(j, "most_wind");
  l.least_wind_m_s = number_in(j, "least_wind");
  l.least_humidity = number_in(j, "least_humidity");
  l.most_humidity = number_in(j, "most_humidity");
  l.least_temperature_c = number_in(j, "least_temperature");
  l.most_temperature_c = number_in(j, "most_temperature");
  return l;
}

Limits with_evidence(Limits l, const Jurisdiction& j) {
  if (const auto asked = number_in(j, "disease_finding")) l.disease_finding_needed = *asked > 0.0;
  for (const Rule& rule : j.rules) {
    if (rule.name != "disease_sample" || says_none(rule)) continue;
    if (const auto share = number_of(rule, Measure::share)) l.sample_shares[rule.of] = *share;
  }
  l.clean_years = whole_in(j, "clean_record");
  l.least_people = whole_in(j, "least_people");
  l.least_water_l = number_in(j, "least_water");
  l.firebreak_m = number_in(j, "firebreak");
  l.banned = yes_in(j, "default_ban");
  l.call_needed = limit_row(j, "day_class") == nullptr ? find_rule(j, "day_class") == nullptr
                                                       : number_in(j, "day_class") != 0.0;
  return l;
}

}  // namespace

Limits limits_of(const Jurisdiction& j) {
  Limits l;
  l.season_share = number_in(j, "season_share");
  l.season_area_ha = number_in(j, "season_area");
  l.daily_area_ha = number_in(j, "daily_area");
  l.burn_area_ha = number_in(j, "burn_area");
  for (std::size_t k = 0; k < setback_kinds.size(); ++k)
    l.setback_m[k] = number_in(j, std::string{"setback_"} + setback_kinds[k]);
  return with_evidence(with_weather(with_calendar(std::move(l), j), j), j);
}

bool resets_drying(const Limits& limits, Millimetre rain) {
  return limits.rain_reset_mm && rain.value() > *limits.rain_reset_mm;
}

}  // namespace aftercut::burn
