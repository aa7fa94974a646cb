#pragma once
// Room burn, lead header. Purpose: what a jurisdiction's rules say of burning a field on a day; what a burn
// puts in the air (emissions.hpp) and what straw worked in gives off (methane.hpp). Takes rules as data,
// places, straw and weather; gives blocked, ask the authority, unknown or answered, with the rows that say
// so. It never grants. Leaves out calendars of machines.

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
};

struct Jurisdiction {
  std::string name;
  std::string authority;  ///< whom to ask
  std::vector<Rule> rules;
  double burn_day_chance = 0.0;  ///< share of days on which the authority calls a burn day, for sampling
};

Result<Jurisdiction> read_jurisdiction(const std::string& json, const std::string& file);

/// Numbers that the evaluation needs out of the rules; absent where no row says so.
struct Limits {
  std::optional<MonthDay> autumn_from, autumn_to, spring_from, spring_to;
  std::optional<double> season_share;   ///< of the farm's planted area
  std::optional<double> daily_area_ha;  ///< for this farm
  std::optional<int> dry_days_spread, dry_days_windrow;
  std::optional<double> rain_reset_mm;
  std::optional<double> most_wind_m_s, least_wind_m_s;
  std::optional<double> setback_home_m, setback_school_m, setback_road_m;
  std::optional<bool> disease_finding_needed;
  std::optional<double> start_hour, end_hour;
};
Limits limits_of(const Jurisdiction& j);
/// Rain of a day that starts the drying count anew: strictly more than the row's depth.
bool resets_drying(const Limits& limits, Millimetre rain);
/// The names of every row that the evaluation knows.
std::vector<std::string> known_rule_names();
/// A row counts as current for so many days after its as_of day. Assumed: one season.
inline constexpr int rule_lasts_days = 366;

enum class Standing { blocked, ask_authority, unknown, answered };
std::string to_text(Standing s,
                    const Jurisdiction& j);  ///< "blocked", "ask <authority>", "unknown", "answered"

/// What is known of one field on one day.
struct Facts {
  Date day;
  Hectare area;
  bool straw_in_windrow = false;
  std::optional<int> days_since_cut;
  std::optional<int> days_since_rain_reset;
  std::optional<double> wind_m_s;
  std::optional<bool> disease_finding;
  std::optional<double> to_home_m, to_school_m, to_road_m;
  std::optional<double> season_burned_share;  ///< of the farm before this burn, this field included
  std::optional<std::string> answer;          ///< the authority's words, quoted
  std::optional<double> start_hour;  ///< clock hour of lighting; absent: the clock rows are shown, not judged
};

struct Finding {
  Standing standing = Standing::unknown;
  std::vector<std::string> rows;  ///< names of the rules that say so, with their sources
};
/// Rows that block win; then any missing, old, unchecked or unanswerable row gives unknown; then answered, or
/// ask.
Finding evaluate(const Jurisdiction& j, const Facts& facts);

}  // namespace aftercut::burn
