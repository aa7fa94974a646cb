#include <fmt/format.h>

#include <algorithm>

#include "rule_values.hpp"

namespace aftercut::burn {
namespace {

constexpr double slack = 1e-9;

/// What one row comes to for one field and day.
struct Verdict {
  enum class Kind { blocks, doubtful, no_hindrance } kind = Kind::no_hindrance;
  std::string text;
};
using Kind = Verdict::Kind;

/// Between quotation marks; marks inside become single ones, so that a quotation ends where it should.
std::string in_marks(std::string text) {
  std::replace(text.begin(), text.end(), '"', '\'');
  return '"' + text + '"';
}

std::string quoted(const Rule& rule) {
  const std::string limit =
      says_none(rule) ? "no limit stated" : fmt::format("{} {} {}", rule.comparison, rule.value, rule.unit);
  return fmt::format("{}: row {}, source {}{}", rule.name, in_marks(limit), in_marks(rule.source),
                     rule.as_of ? ", as of " + iso(*rule.as_of) : "");
}

bool out_of_date(const Rule& rule, Date day) { return !rule.as_of || day - *rule.as_of > rule_lasts_days; }

/// A row that does not block leaves a doubt when it is old or nobody has checked it.
Verdict settle(const Rule& rule, Date day) {
  if (!rule.checked) return {Kind::doubtful, quoted(rule) + "; not marked as checked"};
  if (out_of_date(rule, day)) return {Kind::doubtful, quoted(rule) + "; out of date on " + iso(day)};
  return {Kind::no_hindrance, quoted(rule)};
}

bool holds(double value, std::string_view comparison, double limit) {
  if (comparison == "<=") return value <= limit + slack;
  if (comparison == ">=") return value >= limit - slack;
  return value > limit;
}

/// The field's and day's own number that a row is held against.
std::optional<double> fact_of(std::string_view name, const Facts& f) {
  const auto of_days = [](const std::optional<int>& n) {
    return n ? std::optional<double>{static_cast<double>(*n)} : std::nullopt;
  };
  if (name == "season_share") return f.season_burned_share;
  if (name == "daily_area") return f.area.value();
  if (name == "dry_days_spread" || name == "dry_days_windrow") return of_days(f.days_since_cut);
  if (name == "most_wind" || name == "least_wind") return f.wind_m_s;
  if (name == "setback_home") return f.to_home_m;
  if (name == "setback_school") return f.to_school_m;
  if (name == "setback_road") return f.to_road_m;
  if (name == "start_from" || name == "start_until") return f.start_hour;
  fail("every known row has its fact");
}

Verdict judge_number(const Rule& rule, const KnownRule& known, const Facts& f) {
  const std::optional<double> limit = number_of(rule, known.measure);
  if (!limit) return {Kind::doubtful, quoted(rule) + "; the value is not understood"};
  const std::optional<double> value = fact_of(known.name, f);
  if (value && !holds(*value, known.comparison, *limit))
    return {Kind::blocks, fmt::format("{}; found {:g}, limit {:g}", quoted(rule), *value, *limit)};
  if (!value && known.measure != Measure::clock) return {Kind::doubtful, quoted(rule) + "; not known here"};
  return settle(rule, f.day);
}

Verdict judge_finding(const Rule& rule, const Facts& f) {
  const std::optional<double> asked = number_of(rule, Measure::yes_no);
  if (!asked) return {Kind::doubtful, quoted(rule) + "; the value is not understood"};
  if (*asked > 0.0 && f.disease_finding == false)
    return {Kind::blocks, quoted(rule) + "; no written finding"};
  if (*asked > 0.0 && !f.disease_finding) return {Kind::doubtful, quoted(rule) + "; not known here"};
  return settle(rule, f.day);
}

/// Days since the last rain that starts the drying count anew, held against the drying days of the lay.
Verdict judge_rain(const Rule& rule, const Limits& limits, const Facts& f) {
  if (!limits.rain_reset_mm) return {Kind::doubtful, quoted(rule) + "; the value is not understood"};
  const std::optional<int> wanted = f.straw_in_windrow ? limits.dry_days_windrow : limits.dry_days_spread;
  if (wanted && f.days_since_rain_reset && *f.days_since_rain_reset < *wanted)
    return {Kind::blocks, fmt::format("{}; {} days since such rain, {} wanted", quoted(rule),
                                      *f.days_since_rain_reset, *wanted)};
  if (wanted && !f.days_since_rain_reset) return {Kind::doubtful, quoted(rule) + "; not known here"};
  return settle(rule, f.day);
}

bool inside(MonthDay from, MonthDay to, MonthDay day) {
  return from <= to ? from <= day && day <= to : from <= day || day <= to;
}

bool is_window(std::string_view name) { return known_rule(name)->measure == Measure::month_day; }

/// Outside every window that the rows give. Nothing when a window lacks one of its ends or none is given.
std::optional<bool> outside_windows(const Limits& l, Date date) {
  const MonthDay day{month_of(date), day_of_month(date)};
  std::optional<bool> outside;
  for (const auto& [from, to] :
       {std::pair{l.autumn_from, l.autumn_to}, std::pair{l.spring_from, l.spring_to}}) {
    if (from.has_value() != to.has_value()) return std::nullopt;
    if (from) outside = outside.value_or(true) && !inside(*from, *to, day);
  }
  return outside;
}

Verdict judge_window(const Rule& rule, const Limits& limits, const Facts& f) {
  const std::optional<bool> outside = outside_windows(limits, f.day);
  if (!outside) return {Kind::doubtful, quoted(rule) + "; the window has no other end"};
  if (*outside) return {Kind::blocks, quoted(rule) + "; " + iso(f.day) + " is outside"};
  return settle(rule, f.day);
}

Verdict judge(const KnownRule& known, const Jurisdiction& j, const Limits& limits, const Facts& f) {
  const Rule* rule = find_rule(j, known.name);
  if (rule == nullptr) return {Kind::doubtful, fmt::format("{}: no such row", known.name)};
  if (says_none(*rule)) return settle(*rule, f.day);
  if (is_window(known.name)) return judge_window(*rule, limits, f);
  if (known.name == "rain_reset") return judge_rain(*rule, limits, f);
  if (known.measure == Measure::yes_no) return judge_finding(*rule, f);
  return judge_number(*rule, known, f);
}

/// The drying row of the other lay says nothing of this field.
bool concerns(std::string_view name, const Facts& f) {
  if (name == "dry_days_spread") return !f.straw_in_windrow;
  if (name == "dry_days_windrow") return f.straw_in_windrow;
  return true;
}

std::vector<std::string> texts_of(const std::vector<Verdict>& verdicts, Kind kind) {
  std::vector<std::string> texts;
  for (const Verdict& verdict : verdicts)
    if (verdict.kind == kind) texts.push_back(verdict.text);
  return texts;
}

std::vector<Verdict> judge_all(const Jurisdiction& j, const Facts& f) {
  const Limits limits = limits_of(j);
  std::vector<Verdict> verdicts;
  for (const KnownRule& known : known_rules())
    if (concerns(known.name, f)) verdicts.push_back(judge(known, j, limits, f));
  for (const Rule& rule : j.rules)
    if (known_rule(rule.name) == nullptr)
      verdicts.push_back({Kind::doubtful, quoted(rule) + "; not understood"});
  return verdicts;
}

}  // namespace

std::string to_text(Standing s, const Jurisdiction& j) {
  switch (s) {
    case Standing::blocked:
      return "blocked";
    case Standing::ask_authority:
      return "ask " + j.authority;
    case Standing::unknown:
      return "unknown";
    case Standing::answered:
      return "answered";
  }
  fail("every standing has its text");
}

Finding evaluate(const Jurisdiction& j, const Facts& facts) {
  const std::vector<Verdict> verdicts = judge_all(j, facts);
  if (const auto blocks = texts_of(verdicts, Kind::blocks); !blocks.empty())
    return {Standing::blocked, blocks};
  if (const auto doubts = texts_of(verdicts, Kind::doubtful); !doubts.empty())
    return {Standing::unknown, doubts};
  std::vector<std::string> rows = texts_of(verdicts, Kind::no_hindrance);
  if (!facts.answer) return {Standing::ask_authority, rows};
  rows.insert(rows.begin(), fmt::format("{}: {}", j.authority, in_marks(*facts.answer)));
  return {Standing::answered, rows};
}

}  // namespace aftercut::burn
