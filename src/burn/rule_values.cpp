#include "rule_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "aftercut/core/customary.hpp"

namespace aftercut::burn {
namespace {

struct Unit {
  Measure measure;
  const char* name;
  double factor;        ///< to the unit that the evaluation works with
  double offset = 0.0;  ///< taken off before
};

const std::vector<Unit>& units() {
  using M = Measure;
  static const std::vector<Unit> table{{M::month_day, "month-day", 1.0},
                                       {M::share, "share", 1.0},
                                       {M::share, "percent", 0.01},
                                       {M::share, "%", 0.01},
                                       {M::area, "ha", 1.0},
                                       {M::area, "acre", ha_per_acre},
                                       {M::days, "day", 1.0},
                                       {M::days, "days", 1.0},
                                       {M::depth, "mm", 1.0},
                                       {M::depth, "inch", 25.4},
                                       {M::speed, "m/s", 1.0},
                                       {M::speed, "mph", 0.44704},
                                       {M::speed, "km/h", 1.0 / 3.6},
                                       {M::length, "m", 1.0},
                                       {M::length, "ft", 0.3048},
                                       {M::yes_no, "yes/no", 1.0},
                                       {M::clock, "clock", 1.0},
                                       {M::hours, "h", 1.0},
                                       {M::hours, "minutes", 1.0 / 60},
                                       {M::years, "years", 1.0},
                                       {M::people, "people", 1.0},
                                       {M::volume, "L", 1.0},
                                       {M::volume, "m3", 1000.0},
                                       {M::volume, "gal", 3.785411784},
                                       {M::temperature, "degC", 1.0},
                                       {M::temperature, "degF", 1.0 / 1.8, 32.0},
                                       {M::airflow, "m2/s", 1.0},
                                       {M::weekdays, "weekdays", 1.0},
                                       {M::month_days, "month-days", 1.0},
                                       {M::list, "list", 1.0},
                                       {M::text, "text", 1.0}};
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
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

/// "10:30" -> 10.5
std::optional<double> clock_hours(std::string_view text) {
  if (text.size() != 5 || text[2] != ':') return std::nullopt;
  const auto hours = plain_number(text.substr(0, 2));
  const auto minutes = plain_number(text.substr(3));
  if (!hours || !minutes || *hours < 0.0 || *hours > 23.0 || *minutes < 0.0 || *minutes > 59.0)
    return std::nullopt;
  if (*hours != std::floor(*hours) || *minutes != std::floor(*minutes)) return std::nullopt;
  return *hours + *minutes / 60.0;
}

std::optional<double> yes_no(const std::string& text) {
  if (text == "yes") return 1.0;
  if (text == "no") return 0.0;
  return std::nullopt;
}

}  // namespace

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
  using M = Measure;
  const Unit* unit = unit_of(rule, measure);
  const bool words = measure == M::month_day || measure >= M::weekdays;
  if (unit == nullptr || words) return std::nullopt;
  if (measure == M::clock) return clock_hours(rule.value);
  if (measure == M::yes_no) return yes_no(rule.value);
  const std::optional<double> value = plain_number(rule.value);
  if (!value || (*value < 0.0 && measure != M::temperature)) return std::nullopt;
  const double converted =
      std::round((*value - unit->offset) * unit->factor * 1e9) / 1e9;  // 0.15 inch is 3.81 mm, not a bit less
  if (measure == M::share && converted > 1.0) return std::nullopt;
  const bool whole = measure == M::days || measure == M::years || measure == M::people;
  if (whole && (converted > 366.0 || converted != std::floor(converted))) return std::nullopt;
  return converted;
}

std::optional<double> clock_or_hours(const Rule& rule) {
  const KnownRule* known = known_rule(rule.name);
  const bool fits =
      known != nullptr && (known->measure == Measure::clock || known->measure == Measure::hours);
  return fits ? number_of(rule, known->measure) : std::nullopt;
}

std::string in_units_of(const Rule& rule, Measure measure, double value) {
  const Unit* unit = unit_of(rule, measure);
  if (unit == nullptr) return fmt::format("{:.6g}", value);
  if (measure == Measure::clock) {
    const int minutes = static_cast<int>(std::lround(value * 60.0));
    return fmt::format("{:02d}:{:02d}", minutes / 60, minutes % 60);
  }
  return fmt::format("{:.4g} {}", value / unit->factor + unit->offset, unit->name);
}

std::optional<std::vector<std::string>> list_of(const Rule& rule, Measure measure) {
  if (unit_of(rule, measure) == nullptr) return std::nullopt;
  std::vector<std::string> words;
  for (std::size_t from = 0; from <= rule.value.size();) {
    const std::size_t end = std::min(rule.value.find(',', from), rule.value.size());
    const std::size_t first = rule.value.find_first_not_of(' ', from);
    if (first >= end) return std::nullopt;
    const std::size_t last = rule.value.find_last_not_of(' ', end - 1);
    words.push_back(rule.value.substr(first, last - first + 1));
    from = end + 1;
  }
  return words;
}

std::optional<std::vector<int>> weekdays_of(const Rule& rule) {
  static const std::vector<std::string> names{"monday", "tuesday",  "wednesday", "thursday",
                                              "friday", "saturday", "sunday"};
  const auto words = list_of(rule, Measure::weekdays);
  if (!words) return std::nullopt;
  std::vector<int> days;
  for (const std::string& word : *words) {
    const auto at = std::find(names.begin(), names.end(), word);
    if (at == names.end()) return std::nullopt;
    days.push_back(static_cast<int>(at - names.begin()));
  }
  return days;
}

std::optional<std::vector<MonthDay>> dates_of(const Rule& rule) {
  const auto words = list_of(rule, Measure::month_days);
  if (!words) return std::nullopt;
  std::vector<MonthDay> dates;
  for (const std::string& word : *words) {
    const auto date = parse_month_day(word);
    if (!date) return std::nullopt;
    dates.push_back(*date);
  }
  return dates;
}

bool is_readable(const Rule& rule, Measure measure) {
  switch (measure) {
    case Measure::month_day:
      return month_day_of(rule).has_value();
    case Measure::weekdays:
      return weekdays_of(rule).has_value();
    case Measure::month_days:
      return dates_of(rule).has_value();
    case Measure::list:
      return list_of(rule, measure).has_value();
    case Measure::text:
      return unit_of(rule, measure) != nullptr;
    default:
      return number_of(rule, measure).has_value();
  }
}

}  // namespace aftercut::burn
