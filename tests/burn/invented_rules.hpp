#pragma once
// A whole jurisdiction for tests: invented rows around a few read numbers.

#include <map>
#include <string>

#include "aftercut/burn/rules.hpp"

namespace aftercut::test {

struct RowText {
  std::string value, unit, comparison;
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
          {"start_until", {"17:00", "clock", "<="}}};
}

inline burn::Jurisdiction jurisdiction(const std::map<std::string, RowText>& rows = row_texts()) {
  burn::Jurisdiction j{"Invented Valley", "the Invented Valley air office", {}, 0.3};
  for (const auto& [name, row] : rows)
    j.rules.push_back(
        {name, row.value, row.unit, row.comparison, "rule", "invented page 1", make_date(2026, 8, 1), true});
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
  return f;
}

}  // namespace aftercut::test
