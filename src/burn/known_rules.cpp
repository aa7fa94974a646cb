// Every row that a jurisdiction's file can hold. The page docs/burn-rules.md says what each means; a test
// holds the two against each other.

#include <algorithm>

#include "rule_values.hpp"

namespace aftercut::burn {

const std::vector<KnownRule>& known_rules() {
  using M = Measure;
  static const std::vector<KnownRule> table{{"default_ban", M::yes_no, "="},
                                            {"reason", M::text, "=", Role::duty},
                                            {"autumn_from", M::month_day, ">="},
                                            {"autumn_to", M::month_day, "<="},
                                            {"spring_from", M::month_day, ">="},
                                            {"spring_to", M::month_day, "<="},
                                            {"weekdays_banned", M::weekdays, "="},
                                            {"dates_banned", M::month_days, "="},
                                            {"zones_even_years", M::list, "="},
                                            {"zones_odd_years", M::list, "="},
                                            {"early_harvest_before", M::month_day, "<"},
                                            {"early_closed_from", M::month_day, ">="},
                                            {"early_closed_to", M::month_day, "<="},
                                            {"season_share", M::share, "<="},
                                            {"season_area", M::area, "<="},
                                            {"daily_area", M::area, "<="},
                                            {"burn_area", M::area, "<="},
                                            {"basin_area", M::area, "<=", Role::asked},
                                            {"basin_autumn_area", M::area, "<=", Role::asked},
                                            {"disease_finding", M::yes_no, "="},
                                            {"disease_sample", M::share, ">="},
                                            {"clean_record", M::years, ">="},
                                            {"permit", M::yes_no, "=", Role::duty},
                                            {"wait_list", M::yes_no, "=", Role::asked},
                                            {"day_class", M::yes_no, "="},
                                            {"late_change", M::clock, "<=", Role::duty},
                                            {"fire_ban_day", M::yes_no, "=", Role::asked},
                                            {"no_burn_trigger", M::text, "=", Role::asked},
                                            {"smoke_class", M::text, "=", Role::asked},
                                            {"least_mixing_height", M::length, ">=", Role::asked},
                                            {"least_ventilation", M::airflow, ">=", Role::asked},
                                            {"notice_authority", M::hours, ">=", Role::duty},
                                            {"notice_fire_service", M::hours, ">=", Role::duty},
                                            {"notice_neighbours", M::hours, ">=", Role::duty},
                                            {"notice_day_before", M::clock, "<=", Role::duty},
                                            {"notice_same_day", M::clock, "<=", Role::duty},
                                            {"start_from", M::clock, ">="},
                                            {"start_until", M::clock, "<="},
                                            {"after_sunrise", M::hours, ">="},
                                            {"before_sunset", M::hours, ">="},
                                            {"dry_days_spread", M::days, ">="},
                                            {"dry_days_windrow", M::days, ">="},
                                            {"rain_reset", M::depth, ">"},
                                            {"dryness_test", M::yes_no, "="},
                                            {"spreader", M::yes_no, "=", Role::duty},
                                            {"ignition", M::list, "="},
                                            {"most_wind", M::speed, "<="},
                                            {"least_wind", M::speed, ">="},
                                            {"least_humidity", M::share, ">="},
                                            {"most_humidity", M::share, "<="},
                                            {"least_temperature", M::temperature, ">="},
                                            {"most_temperature", M::temperature, "<="},
                                            {"setback_home", M::length, ">="},
                                            {"setback_school", M::length, ">="},
                                            {"setback_road", M::length, ">="},
                                            {"setback_power_line", M::length, ">="},
                                            {"setback_canal", M::length, ">="},
                                            {"setback_trees", M::length, ">="},
                                            {"setback_other", M::length, ">="},
                                            {"firebreak", M::length, ">="},
                                            {"least_people", M::people, ">="},
                                            {"least_water", M::volume, ">="},
                                            {"tools", M::text, "=", Role::duty},
                                            {"burnout", M::hours, "<=", Role::duty},
                                            {"watch", M::hours, ">=", Role::duty},
                                            {"ash_within", M::hours, "<=", Role::duty},
                                            {"report_within", M::days, "<=", Role::duty},
                                            {"after_burn", M::text, "=", Role::duty},
                                            {"penalty", M::text, "=", Role::shown}};
  return table;
}

const KnownRule* known_rule(std::string_view name) {
  const auto at = std::find_if(known_rules().begin(), known_rules().end(),
                               [&](const KnownRule& rule) { return rule.name == name; });
  return at == known_rules().end() ? nullptr : &*at;
}

std::vector<RowKind> row_kinds() {
  std::vector<RowKind> kinds;
  for (const KnownRule& rule : known_rules())
    kinds.push_back(
        {std::string{rule.name}, rule.role, std::string{rule.comparison}, units_of(rule.measure)});
  return kinds;
}

std::string to_text(Role role) {
  switch (role) {
    case Role::judged:
      return "judged";
    case Role::asked:
      return "asked";
    case Role::duty:
      return "duty";
    case Role::shown:
      return "shown";
  }
  fail("every role has its word");
}

std::vector<Rule> rows_without_limit(const std::vector<std::string>& names, const Rule& like) {
  std::vector<Rule> rows;
  for (const std::string& name : names) {
    Rule row = like;
    row.name = name;
    row.value = "none";
    row.unit.clear();
    if (const KnownRule* known = known_rule(name)) row.comparison = known->comparison;
    rows.push_back(row);
  }
  return rows;
}

std::vector<std::string> known_rule_names() {
  std::vector<std::string> names;
  for (const KnownRule& rule : known_rules()) names.emplace_back(rule.name);
  return names;
}

}  // namespace aftercut::burn
