#pragma once
// A whole jurisdiction for tests: invented rows around a few read numbers.

#include <map>
#include <string>

#include "aftercut/burn/rules.hpp"

namespace aftercut::test {

struct RowText {
  std::string value, unit, comparison, of = {};
};

/// Every row that the evaluation knows, by name. Numbers of DryingRows where there are any, else invented.
inline std::map<std::string, RowText> row_texts() {
  return {{"autumn_from", {"09-01", "month-day", ">="}},
          {"autumn_to", {"12-31", "month-day", "<="}},
          {"spring_from", {"01-01", "month-day", ">="}},
          {"spring_to", {"05-31", "month-day", "<="}},
          {"season_share", {"0.25", "share", "<="}},
          {"daily_area", {"60", "ha", "<="}},
          {"dry_days_spread", {"3", "day", ">="}},
          {"dry_days_windrow", {"10", "day", ">="}},
          {"rain_reset", {"0.15", "inch", ">"}},
          {"most_wind", {"15", "mph", "<="}},
          {"least_wind", {"1", "m/s", ">="}},
          {"setback_home", {"100", "m", ">="}},
          {"setback_school", {"800", "m", ">="}},
          {"setback_road", {"100", "ft", ">="}},
          {"disease_finding", {"yes", "yes/no", "="}},
          {"start_from", {"10:00", "clock", ">="}},
          {"start_until", {"17:00", "clock", "<="}},
          {"weekdays_banned", {"sunday", "weekdays", "="}},
          {"dates_banned", {"12-25, 07-04", "month-days", "="}},
          {"zones_even_years", {"A, C", "list", "="}},
          {"zones_odd_years", {"B", "list", "="}},
          {"early_harvest_before", {"09-10", "month-day", "<"}},
          {"early_closed_from", {"10-01", "month-day", ">="}},
          {"early_closed_to", {"11-15", "month-day", "<="}},
          {"season_area", {"200", "ha", "<="}},
          {"burn_area", {"50", "ha", "<="}},
          {"basin_area", {"125000", "acre", "<="}},
          {"basin_autumn_area", {"90000", "acre", "<="}},
          {"disease_sample", {"15", "percent", ">=", "stem rot"}},
          {"clean_record", {"3", "years", ">="}},
          {"default_ban", {"yes", "yes/no", "="}},
          {"reason", {"allowed for disease control only", "text", "="}},
          {"permit", {"yes", "yes/no", "="}},
          {"wait_list", {"yes", "yes/no", "="}},
          {"day_class", {"yes", "yes/no", "="}},
          {"late_change", {"10:00", "clock", "<="}},
          {"fire_ban_day", {"yes", "yes/no", "="}},
          {"no_burn_trigger", {"an inversion of more than 17 degF", "text", "="}},
          {"smoke_class", {"good or better, approved by the desk", "text", "="}},
          {"least_mixing_height", {"1700", "ft", ">="}},
          {"least_ventilation", {"2400", "m2/s", ">="}},
          {"notice_authority", {"24", "h", ">="}},
          {"notice_fire_service", {"24", "h", ">="}},
          {"notice_neighbours", {"48", "h", ">="}},
          {"notice_day_before", {"15:00", "clock", "<="}},
          {"notice_same_day", {"07:45", "clock", "<="}},
          {"after_sunrise", {"2", "h", ">="}},
          {"before_sunset", {"0.5", "h", ">="}},
          {"dryness_test", {"yes", "yes/no", "="}},
          {"spreader", {"yes", "yes/no", "="}},
          {"ignition", {"backing, strips", "list", "="}},
          {"least_humidity", {"25", "percent", ">="}},
          {"most_humidity", {"60", "percent", "<="}},
          {"least_temperature", {"5", "degC", ">="}},
          {"most_temperature", {"90", "degF", "<="}},
          {"setback_power_line", {"50", "m", ">="}},
          {"setback_canal", {"10", "m", ">="}},
          {"setback_trees", {"200", "m", ">="}},
          {"setback_other", {"20", "m", ">="}},
          {"firebreak", {"4", "m", ">="}},
          {"least_people", {"3", "people", ">="}},
          {"least_water", {"2000", "L", ">="}},
          {"tools", {"a shovel and a beater for each person", "text", "="}},
          {"burnout", {"24", "h", "<="}},
          {"watch", {"4", "h", ">="}},
          {"ash_within", {"24", "h", "<="}},
          {"report_within", {"3", "days", "<="}},
          {"after_burn", {"you may leave when nothing smokes", "text", "="}},
          {"penalty", {"a fine; no permit next year", "text", "="}}};
}

inline burn::Jurisdiction jurisdiction(const std::map<std::string, RowText>& rows = row_texts()) {
  burn::Jurisdiction j{"Invented Valley", "the Invented Valley air office", {}, 0.3};
  for (const auto& [name, row] : rows)
    j.rules.push_back({name, row.value, row.unit, row.comparison, "rule", "invented page 1",
                       make_date(2026, 8, 1), true, row.of});
  return j;
}

/// A field and day that no row of `jurisdiction()` blocks and of which everything is known.
inline burn::Facts good_facts() {
  burn::Facts f;
  f.day = make_date(2026, 10, 20);
  f.area = Hectare{20};
  f.days_since_cut = 12;
  f.days_since_rain_reset = 12;
  f.wind_m_s = 3.0;
  f.disease_finding = true;
  f.to_home_m = 900;
  f.to_school_m = 3000;
  f.to_road_m = 120;
  f.season_burned_share = 0.1;
  f.start_hour = 11.0;
  f.sunrise_hour = 7.0;
  f.sunset_hour = 17.6;
  f.season_burned_ha = 60.0;
  f.humidity = 0.4;
  f.temperature_c = 18.0;
  f.samples = {{"stem rot", 0.18}};
  f.clean_years = 5;
  f.to_power_line_m = 300;
  f.to_canal_m = 40;
  f.to_trees_m = 600;
  f.to_other_m = 100;
  f.leave = "leave of 1 October: field 7, allowed this season";
  f.zone = "A";
  f.harvest = make_date(2026, 9, 20);
  f.people = 4;
  f.water_l = 3000;
  f.firebreak_m = 5;
  f.ignition = "backing";
  return f;
}

}  // namespace aftercut::test
