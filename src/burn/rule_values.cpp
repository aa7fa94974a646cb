#include "rule_values.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "aftercut/core/customary.hpp"

namespace aftercut::burn {
namespace {

struct Unit {
  Measure measure;
  const char* name;
  double factor;  ///< to the unit that the evaluation works with
};

const std::vector<Unit>& units() {
  static const std::vector<Unit> table{{Measure::month_day, "month-day", 1.0},
                                       {Measure::share, "share", 1.0},
                                       {Measure::share, "percent", 0.01},
                                       {Measure::share, "%", 0.01},
                                       {Measure::area, "ha", 1.0},
                                       {Measure::area, "acre", ha_per_acre},
                                       {Measure::days, "day", 1.0},
                                       {Measure::days, "days", 1.0},
                                       {Measure::depth, "mm", 1.0},
                                       {Measure::depth, "inch", 25.4},
                                       {Measure::speed, "m/s", 1.0},
                                       {Measure::speed, "mph", 0.44704},
                                       {Measure::speed, "km/h", 1.0 / 3.6},
                                       {Measure::length, "m", 1.0},
                                       {Measure::length, "ft", 0.3048},
                                       {Measure::yes_no, "yes/no", 1.0},
                                       {Measure::clock, "clock", 1.0}};
  return table;
}

const Unit* unit_of(const Rule& rule, Measure measure) {
  const auto at = std::find_if(units().begin(), units().end(), [&](const Unit& unit) {
    return unit.measure == measure && rule.unit == unit.name;
  });
  return at == units().end() ? nullptr : &*at;
}

std::optional<double> plain_number(std::string_view text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value) || value < 0.0)
    return std::nullopt;
  return value;
}

/// "10:30" -> 10.5
std::optional<double> clock_hours(std::string_view text) {
  if (text.size() != 5 || text[2] != ':') return std::nullopt;
  const auto hours = plain_number(text.substr(0, 2));
  const auto minutes = plain_number(text.substr(3));
  if (!hours || !minutes || *hours > 23.0 || *minutes > 59.0) return std::nullopt;
  if (*hours != std::floor(*hours) || *minutes != std::floor(*minutes)) return std::nullopt;
  return *hours + *minutes / 60.0;
}

std::optional<double> yes_no(const std::string& text) {
  if (text == "yes") return 1.0;
  if (text == "no") return 0.0;
  return std::nullopt;
}

}  // namespace

const std::vector<KnownRule>& known_rules() {
  static const std::vector<KnownRule> table{
      {"autumn_from", Measure::month_day, ">="}, {"autumn_to", Measure::month_day, "<="},
      {"spring_from", Measure::month_day, ">="}, {"spring_to", Measure::month_day, "<="},
      {"season_share", Measure::share, "<="},    {"daily_area", Measure::area, "<="},
      {"dry_days_spread", Measure::days, ">="},  {"dry_days_windrow", Measure::days, ">="},
      {"rain_reset", Measure::depth, ">"},       {"most_wind", Measure::speed, "<="},
      {"least_wind", Measure::speed, ">="},      {"setback_home", Measure::length, ">="},
      {"setback_school", Measure::length, ">="}, {"setback_road", Measure::length, ">="},
      {"disease_finding", Measure::yes_no, "="}, {"start_from", Measure::clock, ">="},
      {"start_until", Measure::clock, "<="}};
  return table;
}

const KnownRule* known_rule(std::string_view name) {
  const auto at = std::find_if(known_rules().begin(), known_rules().end(),
                               [&](const KnownRule& rule) { return rule.name == name; });
  return at == known_rules().end() ? nullptr : &*at;
}

std::vector<std::string> known_rule_names() {
  std::vector<std::string> names;
  for (const KnownRule& rule : known_rules()) names.emplace_back(rule.name);
  return names;
}

std::vector<std::string> units_of(Measure measure) {
  std::vector<std::string> names;
  for (const Unit& unit : units())
    if (unit.measure == measure) names.emplace_back(unit.name);
  return names;
}

const Rule* find_rule(const Jurisdiction& j, std::string_view name) {
  const auto at = std::find_if(j.rules.begin(), j.rules.end(), [&](const Rule& r) { return r.name == name; });
  return at == j.rules.end() ? nullptr : &*at;
}

bool says_none(const Rule& rule) { return rule.value == "none"; }

std::optional<MonthDay> month_day_of(const Rule& rule) {
  if (unit_of(rule, Measure::month_day) == nullptr) return std::nullopt;
  return parse_month_day(rule.value);
}

std::optional<double> number_of(const Rule& rule, Measure measure) {
  const Unit* unit = unit_of(rule, measure);
  if (unit == nullptr || measure == Measure::month_day) return std::nullopt;
  if (measure == Measure::clock) return clock_hours(rule.value);
  if (measure == Measure::yes_no) return yes_no(rule.value);
  const std::optional<double> value = plain_number(rule.value);
  if (!value) return std::nullopt;
  const double converted =
      std::round(*value * unit->factor * 1e9) / 1e9;  // 0.15 inch is 3.81 mm, not a bit less
  if (measure == Measure::share && converted > 1.0) return std::nullopt;
  if (measure == Measure::days && (converted > 366.0 || converted != std::floor(converted)))
    return std::nullopt;
  return converted;
}

}  // namespace aftercut::burn
