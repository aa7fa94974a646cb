#include "judge.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace aftercut::burn {
namespace {

using Kind = Verdict::Kind;

bool out_of_date(const Rule& rule, Date day) { return !rule.as_of || day - *rule.as_of > rule_lasts_days; }

Verdict verdict(Kind kind, const Rule& rule, const std::string& why) {
  const KnownRule* known = known_rule(rule.name);
  RowWords words = words_of(rule);
  words.why = why;
  return {kind, rule.name, known == nullptr ? Role::judged : known->role, std::move(words)};
}

/// The unit says something that the value does not.
bool has_own_unit(Measure m) {
  return m != Measure::yes_no && m != Measure::clock && m != Measure::month_day;
}

/// The field's and day's own number that a row is held against.
std::optional<double> fact_of(std::string_view name, const Facts& f) {
  const auto of_whole = [](const std::optional<int>& n) {
    return n ? std::optional<double>{static_cast<double>(*n)} : std::nullopt;
  };
  if (name == "season_share") return f.season_burned_share;
  if (name == "season_area") return f.season_burned_ha;
  if (name == "daily_area" || name == "burn_area") return f.area.value();
  if (name == "clean_record") return of_whole(f.clean_years);
  if (name == "most_wind" || name == "least_wind") return f.wind_m_s;
  if (name == "most_humidity" || name == "least_humidity") return f.humidity;
  if (name == "most_temperature" || name == "least_temperature") return f.temperature_c;
  if (name == "setback_home") return f.to_home_m;
  if (name == "setback_school") return f.to_school_m;
  if (name == "setback_road") return f.to_road_m;
  if (name == "setback_power_line") return f.to_power_line_m;
  if (name == "setback_canal") return f.to_canal_m;
  if (name == "setback_trees") return f.to_trees_m;
  if (name == "setback_other") return f.to_other_m;
  if (name == "firebreak") return f.firebreak_m;
  if (name == "least_people") return of_whole(f.people);
  if (name == "least_water") return f.water_l;
  if (name == "start_from" || name == "start_until") return f.start_hour;
  fail("every judged row has its fact");
}

Verdict judge_number(const Rule& rule, const KnownRule& known, const Facts& f) {
  const std::optional<double> limit = number_of(rule, known.measure);
  if (!limit) return doubtful(rule, "the value is not understood");
  const std::optional<double> value = fact_of(known.name, f);
  if (value && !holds(*value, known.comparison, *limit))
    return blocks(rule, "found " + in_units_of(rule, known.measure, *value));
  if (!value && known.measure != Measure::clock) return doubtful(rule, "not known here");
  return settle(rule, f.day);
}

using Judge = Verdict (*)(const Rule&, const Case&);
struct NamedJudge {
  std::string_view name;
  Judge judge;
};

/// Rows that are more than a number against a limit.
Judge own_judge(std::string_view name) {
  static const std::vector<NamedJudge> table{
      {"default_ban", judge_ban},         {"autumn_from", judge_window},
      {"autumn_to", judge_window},        {"spring_from", judge_window},
      {"spring_to", judge_window},        {"weekdays_banned", judge_weekdays},
      {"dates_banned", judge_dates},      {"zones_even_years", judge_zones},
      {"zones_odd_years", judge_zones},   {"early_harvest_before", judge_early_harvest},
      {"disease_finding", judge_finding}, {"disease_sample", judge_sample},
      {"day_class", judge_day_class},     {"after_sunrise", judge_sun},
      {"before_sunset", judge_sun},       {"dry_days_spread", judge_drying},
      {"dry_days_windrow", judge_drying}, {"rain_reset", judge_rain},
      {"ignition", judge_ignition}};
  const auto at = std::find_if(table.begin(), table.end(), [&](const auto& j) { return j.name == name; });
  return at == table.end() ? nullptr : at->judge;
}

/// These say something together with another row, which judges them all.
bool judged_elsewhere(std::string_view name) {
  return name == "early_closed_from" || name == "early_closed_to" || name == "dryness_test";
}

Verdict judge_row(const KnownRule& known, const Rule& rule, const Case& c) {
  if (says_none(rule)) return settle(rule, c.facts.day);
  if (const Judge own = own_judge(known.name)) return own(rule, c);
  if (known.role != Role::judged || judged_elsewhere(known.name))
    return is_readable(rule, known.measure) ? settle(rule, c.facts.day)
                                            : doubtful(rule, "the value is not understood");
  return judge_number(rule, known, c.facts);
}

}  // namespace

std::string in_marks(std::string text) {
  std::replace(text.begin(), text.end(), '"', '\'');
  return '"' + text + '"';
}

RowWords words_of(const Rule& rule) {
  const KnownRule* known = known_rule(rule.name);
  std::string limit = fmt::format("{} {}", rule.comparison, rule.value);
  if (known != nullptr && known->measure >= Measure::weekdays)
    limit = rule.value;
  else if (known == nullptr || has_own_unit(known->measure))
    limit += " " + rule.unit;
  if (says_none(rule)) limit = "no limit stated";
  return {rule.name + (rule.of.empty() ? "" : " of " + in_marks(rule.of)),
          "row " + in_marks(limit),
          "source " + in_marks(rule.source) + (rule.as_of ? ", as of " + iso(*rule.as_of) : ""),
          {}};
}

std::string quoted(const Rule& rule) { return to_text(words_of(rule)); }

std::string to_text(const RowWords& w) {
  return (w.name.empty() ? "" : w.name + ": ") + w.quote + (w.source.empty() ? "" : ", " + w.source) +
         (w.why.empty() ? "" : "; " + w.why);
}

Verdict blocks(const Rule& rule, const std::string& why) { return verdict(Kind::blocks, rule, why); }

Verdict doubtful(const Rule& rule, const std::string& why) { return verdict(Kind::doubtful, rule, why); }

Verdict settle(const Rule& rule, Date day) {
  const KnownRule* known = known_rule(rule.name);
  const bool text_alone = known != nullptr && known->role == Role::shown;
  if (!rule.checked && !text_alone) return doubtful(rule, "not marked as checked");
  if (out_of_date(rule, day) && !text_alone) return doubtful(rule, "out of date on " + iso(day));
  return verdict(Kind::no_hindrance, rule, "");
}

bool holds(double value, std::string_view comparison, double limit) {
  if (comparison == "<=") return value <= limit + slack;
  if (comparison == ">=") return value >= limit - slack;
  return value > limit;
}

std::vector<Verdict> judge_rows(const Jurisdiction& j, const Facts& f) {
  std::vector<Verdict> verdicts;
  for (const KnownRule& known : known_rules()) {
    if (!concerns(known.name, f)) continue;
    bool there = known.role == Role::shown;
    for (const Rule& rule : j.rules) {
      if (rule.name != known.name) continue;
      there = true;
      verdicts.push_back(judge_row(known, rule, {j, f}));
    }
    if (!there)
      verdicts.push_back({Kind::doubtful,
                          std::string{known.name},
                          known.role,
                          {std::string{known.name}, "no such row", {}, {}}});
  }
  for (const Rule& rule : j.rules)
    if (known_rule(rule.name) == nullptr) verdicts.push_back(doubtful(rule, "not understood"));
  return verdicts;
}

}  // namespace aftercut::burn
