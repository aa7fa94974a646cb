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

}  // namespace

Limits limits_of(const Jurisdiction& j) {
  Limits limits;
  limits.autumn_from = day_in(j, "autumn_from");
  limits.autumn_to = day_in(j, "autumn_to");
  limits.spring_from = day_in(j, "spring_from");
  limits.spring_to = day_in(j, "spring_to");
  limits.season_share = number_in(j, "season_share");
  limits.daily_area_ha = number_in(j, "daily_area");
  limits.dry_days_spread = whole_in(j, "dry_days_spread");
  limits.dry_days_windrow = whole_in(j, "dry_days_windrow");
  limits.rain_reset_mm = number_in(j, "rain_reset");
  limits.most_wind_m_s = number_in(j, "most_wind");
  limits.least_wind_m_s = number_in(j, "least_wind");
  limits.setback_home_m = number_in(j, "setback_home");
  limits.setback_school_m = number_in(j, "setback_school");
  limits.setback_road_m = number_in(j, "setback_road");
  if (const auto asked = number_in(j, "disease_finding")) limits.disease_finding_needed = *asked > 0.0;
  limits.start_hour = number_in(j, "start_from");
  limits.end_hour = number_in(j, "start_until");
  return limits;
}

bool resets_drying(const Limits& limits, Millimetre rain) {
  return limits.rain_reset_mm && rain.value() > *limits.rain_reset_mm;
}

}  // namespace aftercut::burn
