#pragma once
// One row held against the facts of one field and day. Private to the room.

#include "rule_values.hpp"

namespace aftercut::burn {

inline constexpr double slack = 1e-9;

/// What a row is judged with.
struct Case {
  const Jurisdiction& place;
  const Facts& facts;
};

Verdict blocks(const Rule& rule, const std::string& why);
Verdict doubtful(const Rule& rule, const std::string& why);
/// A row that does not block leaves a doubt when it is old or nobody has checked it.
Verdict settle(const Rule& rule, Date day);
bool holds(double value, std::string_view comparison, double limit);

/// The row concerns this field: not the drying of the other lay, nor the zones of the other years.
bool concerns(std::string_view name, const Facts& facts);

// Rows of the calendar and the clock.
Verdict judge_window(const Rule& rule, const Case& c);
Verdict judge_weekdays(const Rule& rule, const Case& c);
Verdict judge_dates(const Rule& rule, const Case& c);
Verdict judge_zones(const Rule& rule, const Case& c);
Verdict judge_early_harvest(const Rule& rule, const Case& c);
Verdict judge_sun(const Rule& rule, const Case& c);

// Rows that ask for evidence or for the authority's word.
Verdict judge_ban(const Rule& rule, const Case& c);
Verdict judge_finding(const Rule& rule, const Case& c);
Verdict judge_sample(const Rule& rule, const Case& c);
Verdict judge_day_class(const Rule& rule, const Case& c);
Verdict judge_ignition(const Rule& rule, const Case& c);

// Drying.
Verdict judge_drying(const Rule& rule, const Case& c);
Verdict judge_rain(const Rule& rule, const Case& c);

}  // namespace aftercut::burn
