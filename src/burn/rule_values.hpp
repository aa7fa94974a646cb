#pragma once
// The rows that the evaluation knows, and their values in the units that it works with. Private to the room.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercut/burn/rules.hpp"

namespace aftercut::burn {

enum class Measure {
  month_day,
  share,
  area,
  days,
  depth,
  speed,
  length,
  yes_no,
  clock,
  hours,
  years,
  people,
  volume,
  temperature,
  airflow,
  weekdays,
  month_days,
  list,
  text
};

struct KnownRule {
  std::string_view name;
  Measure measure = Measure::share;
  std::string_view comparison;  ///< the only one that this row is read with
  Role role = Role::judged;
};

const std::vector<KnownRule>& known_rules();
const KnownRule* known_rule(std::string_view name);  ///< nothing for an unknown name
std::vector<std::string> units_of(Measure measure);  ///< units that a row of this measure can be written in

/// The jurisdiction's row of that name; nothing when there is none.
const Rule* find_rule(const Jurisdiction& j, std::string_view name);
/// The row says that the jurisdiction has no such limit.
bool says_none(const Rule& rule);
/// Nothing when the value is not a month and day such as "09-01".
std::optional<MonthDay> month_day_of(const Rule& rule);
/// In ha, m, mm, m/s, share, days, hours, years, people, L, degrees Celsius, m2/s, clock hours, or 1 for yes
/// and 0 for no; nothing when value or unit does not fit.
std::optional<double> number_of(const Rule& rule, Measure measure);
/// A value in those units as the row's own unit would have it, with that unit.
std::string in_units_of(const Rule& rule, Measure measure, double value);
/// The words of a list "a, b, c"; nothing when the unit is another or one of them is empty.
std::optional<std::vector<std::string>> list_of(const Rule& rule, Measure measure);
std::optional<std::vector<int>> weekdays_of(const Rule& rule);  ///< 0 Monday
std::optional<std::vector<MonthDay>> dates_of(const Rule& rule);
/// The value can be read as a value of this measure.
bool is_readable(const Rule& rule, Measure measure);

}  // namespace aftercut::burn
