#pragma once
// Room burn, lead header. Purpose: what a jurisdiction's rules say of burning a field on a day; what a burn
// puts in the air (emissions.hpp) and what straw worked in gives off (methane.hpp). Takes rules as data,
// places, straw and weather; gives blocked, ask the authority, unknown or answered, with the rows that say
// so. It never grants. Leaves out calendars of machines.

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/quantity.hpp"
#include "aftercut/core/result.hpp"

namespace aftercut::burn {

/// One row of a jurisdiction's file.
struct Rule {
  std::string name;   ///< key that the evaluation knows, docs/burn-rules.md
  std::string value;  ///< as written
  std::string unit;
  std::string comparison;  ///< <, <=, >, >=, =
  std::string weight;      ///< law, rule, permit term, guidance
  std::string source;
  std::optional<Date> as_of;
  bool checked = false;  ///< marked as checked by the user
  std::string of = {};   ///< the disease that a sample threshold is of; else empty
};

struct Jurisdiction {
  std::string name;
  std::string authority;  ///< whom to ask
  std::vector<Rule> rules;
  double burn_day_chance = 0.0;  ///< share of days on which the authority calls a burn day, for sampling
};

Result<Jurisdiction> read_jurisdiction(const std::string& json, const std::string& file);

/// What a row is for. `judged`: held against what is known of field and day. `asked`: only the authority
/// knows; shown with its question. `duty`: shown with its date, or put on the sheet. `shown`: text alone; its
/// absence leaves no doubt.
enum class Role { judged, asked, duty, shown };
struct RowKind {
  std::string name;
  Role role = Role::judged;
  std::string comparison;          ///< the only one that the row is read with
  std::vector<std::string> units;  ///< that it can be written in
};
/// Every row that the evaluation knows, in the order in which results list them.
std::vector<RowKind> row_kinds();
std::vector<std::string> known_rule_names();
std::string to_text(Role role);
/// Rows of these names with the value none; all else is taken from `like`.
std::vector<Rule> rows_without_limit(const std::vector<std::string>& names, const Rule& like);
/// A row counts as current for so many days after its as_of day. Assumed: one season.
inline constexpr int rule_lasts_days = 366;

/// Kinds of place that a setback can be asked from, in the order of Setbacks.
inline constexpr std::array<const char*, 7> setback_kinds{"home",  "school", "road", "power_line",
                                                          "canal", "trees",  "other"};
using Setbacks = std::array<std::optional<double>, setback_kinds.size()>;  ///< [kind] m

/// Numbers that a plan needs out of the rules; absent where no row says so.
struct Limits {
  std::optional<MonthDay> autumn_from, autumn_to, spring_from, spring_to;
  std::optional<double> season_share;                   ///< of the farm's planted area
  std::optional<double> season_area_ha, daily_area_ha;  ///< for this farm
  std::optional<double> burn_area_ha;                   ///< of one burn
  std::optional<int> dry_days_spread, dry_days_windrow;
  std::optional<double> rain_reset_mm;
  std::optional<double> most_wind_m_s, least_wind_m_s;
  std::optional<double> least_humidity, most_humidity;            ///< share, at the day's highest temperature
  std::optional<double> least_temperature_c, most_temperature_c;  ///< of the day's highest
  Setbacks setback_m;
  std::optional<bool> disease_finding_needed;
  std::map<std::string, double> sample_shares;  ///< by disease
  std::optional<int> clean_years;
  std::optional<double> start_hour, end_hour;
  std::optional<double> after_sunrise_h, before_sunset_h;
  std::vector<int> weekdays_banned;  ///< 0 Monday
  std::vector<MonthDay> dates_banned;
  std::optional<std::vector<std::string>> zones_even_years, zones_odd_years;  ///< by the year of harvest
  std::optional<MonthDay> early_before, early_closed_from, early_closed_to;
  std::optional<int> least_people;
  std::optional<double> least_water_l, firebreak_m;
  bool banned = false;      ///< by default; individual leave opens it
  bool call_needed = true;  ///< only on days that the authority calls
};
Limits limits_of(const Jurisdiction& j);
/// Rain of a day that starts the drying count anew: strictly more than the row's depth.
bool resets_drying(const Limits& limits, Millimetre rain);

enum class Standing { blocked, ask_authority, unknown, answered };
std::string to_text(Standing s,
                    const Jurisdiction& j);  ///< "blocked", "ask <authority>", "unknown", "answered"

/// Share of stems or plants with the disease, by a sample of this field.
struct Sample {
  std::string disease;
  double share = 0.0;
};

/// What is known of one field on one day.
struct Facts {
  Date day;
  Hectare area;
  bool straw_in_windrow = false;
  std::optional<int> days_since_cut;
  std::optional<int> days_since_rain_reset;
  std::optional<double> wind_m_s;
  std::optional<double> humidity;       ///< share, at the day's highest temperature
  std::optional<double> temperature_c;  ///< the day's highest
  std::optional<bool> disease_finding;
  std::vector<Sample> samples;
  std::optional<int> clean_years;  ///< whole years since a breach of the burn rules
  std::optional<double> to_home_m, to_school_m, to_road_m, to_power_line_m, to_canal_m, to_trees_m,
      to_other_m;
  std::optional<double> season_burned_share;  ///< of the farm, this burn included
  std::optional<double> season_burned_ha;     ///< this burn included
  std::optional<std::string> answer;          ///< the authority's words of the day, quoted
  std::optional<std::string> leave;           ///< the authority's individual leave, quoted
  std::optional<double> start_hour;  ///< clock hour of lighting; absent: the clock rows are shown, not judged
  std::optional<double> sunrise_hour, sunset_hour;
  std::optional<std::string> zone;
  std::optional<Date> harvest;
  std::optional<int> people;
  std::optional<double> water_l, firebreak_m;
  std::optional<bool> called;        ///< the authority's class of the day, where it is entered
  std::optional<bool> dryness_test;  ///< passed on this day
  std::optional<std::string> ignition;
};

/// What is said of one row, in its parts; to_text joins them to one sentence.
struct RowWords {
  std::string name;    ///< of the row, with what it is of; of an answer: the authority; may be empty
  std::string quote;   ///< the row or the answer in quotation marks, or that there is no such row
  std::string source;  ///< its source in quotation marks, and as of when; may be empty
  std::string why;     ///< what was found, or what is missing; may be empty
  friend bool operator==(const RowWords&, const RowWords&) = default;
};
std::string to_text(const RowWords& words);

/// One row held against the facts.
struct Verdict {
  enum class Kind { blocks, doubtful, no_hindrance } kind = Kind::no_hindrance;
  std::string name;
  Role role = Role::judged;
  RowWords words;
};
/// Every row that concerns the field on that day, and every row that is missing.
std::vector<Verdict> judge_rows(const Jurisdiction& j, const Facts& facts);

struct Finding {
  Standing standing = Standing::unknown;
  std::vector<RowWords> rows;  ///< that say so
};
/// Rows that block win; then any missing, old, unchecked or unanswerable row gives unknown; then answered, or
/// ask.
Finding evaluate(const Jurisdiction& j, const Facts& facts);
/// The text between quotation marks; marks inside become single ones, so that a quotation ends where it
/// should.
std::string in_marks(std::string text);
/// The value of a clock or hours row [h]; nothing for another row or no limit.
std::optional<double> clock_or_hours(const Rule& rule);
/// The row as a quotation with its source; `why` is empty.
RowWords words_of(const Rule& rule);
/// The same as one sentence.
std::string quoted(const Rule& rule);

}  // namespace aftercut::burn
