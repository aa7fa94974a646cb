// What the rules come to: blocked, ask, unknown or answered, at and beside each boundary.
#include <algorithm>

#include "catch2/catch.hpp"
#include "invented_rules.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::burn;
using test::good_facts;
using test::jurisdiction;
using test::row_texts;

namespace {

Standing standing(const Facts& f) { return evaluate(jurisdiction(), f).standing; }

bool names(const Finding& finding, const std::string& rule) {
  return std::any_of(finding.rows.begin(), finding.rows.end(),
                     [&](const RowWords& row) { return row.name == rule; });
}

/// Blocked, and by this row.
bool blocked_by(const Facts& f, const std::string& rule) {
  const Finding finding = evaluate(jurisdiction(), f);
  return finding.standing == Standing::blocked && names(finding, rule);
}

bool unknown_by(const Jurisdiction& j, const Facts& f, const std::string& rule) {
  const Finding finding = evaluate(j, f);
  return finding.standing == Standing::unknown && names(finding, rule);
}

Facts with(void (*change)(Facts&)) {
  Facts f = good_facts();
  change(f);
  return f;
}

}  // namespace

TEST_CASE("the best that the rows alone come to is to ask", "[identity]") {
  const Finding finding = evaluate(jurisdiction(), good_facts());
  CHECK(finding.standing == Standing::ask_authority);
  CHECK(to_text(finding.standing, jurisdiction()) == "ask the Invented Valley air office");
  CHECK(finding.rows.size() == row_texts().size() - 2);  // the other lay's drying, the other years' zones
  CHECK(names(finding, "season_share"));
  CHECK(finding.rows.front().source.find("invented page 1") != std::string::npos);
}

TEST_CASE("an answer is quoted with who gave it", "[identity]") {
  Facts f = good_facts();
  f.answer = "Not before Thursday.";
  const Finding finding = evaluate(jurisdiction(), f);
  CHECK(finding.standing == Standing::answered);
  CHECK(to_text(finding.rows.front()) == "the Invented Valley air office: \"Not before Thursday.\"");
}

TEST_CASE("rows that block win over an answer and over doubts", "[identity]") {
  Facts f = good_facts();
  f.answer = "Yes.";
  f.days_since_cut = 1;
  f.wind_m_s.reset();
  const Finding finding = evaluate(jurisdiction(), f);
  CHECK(finding.standing == Standing::blocked);
  CHECK(finding.rows.size() == 1);
}

TEST_CASE("drying days: two are too few, three will do; ten in windrows", "[published]") {
  // Source: DryingRows (read).
  CHECK(blocked_by(with([](Facts& f) { f.days_since_cut = 2; }), "dry_days_spread"));
  CHECK(standing(with([](Facts& f) { f.days_since_cut = 3; })) == Standing::ask_authority);
  CHECK(blocked_by(with([](Facts& f) {
                     f.straw_in_windrow = true;
                     f.days_since_cut = 9;
                   }),
                   "dry_days_windrow"));
  CHECK(standing(with([](Facts& f) {
          f.straw_in_windrow = true;
          f.days_since_cut = 10;
        })) == Standing::ask_authority);
}

TEST_CASE("rain strictly beyond 0.15 inch starts the drying anew", "[published]") {
  // Source: DryingRows (read); 0.15 inch is 3.81 mm.
  const Limits limits = limits_of(jurisdiction());
  test::check(
      {{"rain reset 0.15 inch [mm]", "DryingRows", test::Kind::derived, 3.81, *limits.rain_reset_mm, 1e-12}});
  CHECK_FALSE(resets_drying(limits, Millimetre{3.81}));
  CHECK(resets_drying(limits, Millimetre{3.82}));
  CHECK_FALSE(resets_drying(Limits{}, Millimetre{100}));
  CHECK(blocked_by(with([](Facts& f) { f.days_since_rain_reset = 2; }), "rain_reset"));
  CHECK(standing(with([](Facts& f) { f.days_since_rain_reset = 3; })) == Standing::ask_authority);
  CHECK(blocked_by(with([](Facts& f) {
                     f.straw_in_windrow = true;
                     f.days_since_rain_reset = 9;
                   }),
                   "rain_reset"));
}

TEST_CASE("lighting between ten and five", "[published]") {
  // Source: DryingRows (read).
  CHECK(blocked_by(with([](Facts& f) { f.start_hour = 9 + 59.0 / 60; }), "start_from"));
  CHECK(standing(with([](Facts& f) { f.start_hour = 10.0; })) == Standing::ask_authority);
  CHECK(standing(with([](Facts& f) { f.start_hour = 17.0; })) == Standing::ask_authority);
  CHECK(blocked_by(with([](Facts& f) { f.start_hour = 17 + 1.0 / 60; }), "start_until"));
  CHECK(standing(with([](Facts& f) { f.start_hour.reset(); })) ==
        Standing::ask_authority);  // shown, not judged
}

TEST_CASE("a quarter of 400 ha is 100 ha", "[derived]") {
  const auto share = [](double ha) {
    Facts f = good_facts();
    f.season_burned_share = ha / 400.0;
    return standing(f);
  };
  CHECK(share(100.0) == Standing::ask_authority);
  CHECK(share(100.1) == Standing::blocked);
}

TEST_CASE("every other limit blocks beside its boundary", "[identity]") {
  CHECK(blocked_by(with([](Facts& f) { f.area = Hectare{60.1}; }), "daily_area"));
  CHECK(blocked_by(with([](Facts& f) { f.area = Hectare{50.1}; }), "burn_area"));
  CHECK(standing(with([](Facts& f) { f.area = Hectare{50}; })) == Standing::ask_authority);
  CHECK(blocked_by(with([](Facts& f) { f.wind_m_s = 6.71; }), "most_wind"));  // 15 mph is 6.7056 m/s
  CHECK(standing(with([](Facts& f) { f.wind_m_s = 6.70; })) == Standing::ask_authority);
  CHECK(blocked_by(with([](Facts& f) { f.wind_m_s = 0.9; }), "least_wind"));
  CHECK(blocked_by(with([](Facts& f) { f.to_home_m = 99; }), "setback_home"));
  CHECK(standing(with([](Facts& f) { f.to_home_m = 100; })) == Standing::ask_authority);
  CHECK(blocked_by(with([](Facts& f) { f.to_school_m = 799; }), "setback_school"));
  CHECK(blocked_by(with([](Facts& f) { f.to_road_m = 30.4; }), "setback_road"));  // 100 ft is 30.48 m
  CHECK(standing(with([](Facts& f) { f.to_road_m = 30.5; })) == Standing::ask_authority);
  CHECK(blocked_by(with([](Facts& f) { f.disease_finding = false; }), "disease_finding"));
}

TEST_CASE("season windows", "[identity]") {
  const auto on = [](int month, int day) {
    Facts f = good_facts();
    f.day = make_date(month >= 8 ? 2026 : 2027, month, day);
    return evaluate(jurisdiction(), f);
  };
  CHECK(on(8, 31).standing == Standing::blocked);
  CHECK(names(on(8, 31), "autumn_from"));
  CHECK(on(9, 1).standing == Standing::ask_authority);
  CHECK(on(12, 31).standing == Standing::ask_authority);
  CHECK(on(1, 1).standing == Standing::ask_authority);
  CHECK(on(5, 31).standing == Standing::ask_authority);
  CHECK(on(6, 1).standing == Standing::blocked);
}

TEST_CASE("a window runs over the turn of the year; half a window is a doubt", "[identity]") {
  auto rows = row_texts();
  rows["autumn_from"].value = "10-01";
  rows["autumn_to"].value = "02-15";
  rows["spring_from"].value = rows["spring_to"].value = "none";
  const auto on = [&](int year, int month, int day) {
    Facts f = good_facts();
    f.day = make_date(year, month, day);
    return evaluate(jurisdiction(rows), f).standing;
  };
  CHECK(on(2026, 9, 30) == Standing::blocked);
  CHECK(on(2026, 12, 1) == Standing::ask_authority);
  CHECK(on(2027, 2, 15) == Standing::ask_authority);
  CHECK(on(2027, 2, 16) == Standing::blocked);
  rows["autumn_to"].value = "none";
  CHECK(on(2026, 12, 1) == Standing::unknown);
}

TEST_CASE("a missing row gives unknown, whichever it is", "[identity]") {
  for (const auto& [name, row] : row_texts()) {
    CAPTURE(name);
    if (name == "penalty") continue;  // text alone: its absence leaves no doubt
    auto rows = row_texts();
    rows.erase(name);
    Facts f = good_facts();
    f.straw_in_windrow = name == "dry_days_windrow";
    if (name == "zones_odd_years") {
      f.harvest = make_date(2025, 9, 20);
      f.zone = "B";
    }
    CHECK(unknown_by(jurisdiction(rows), f, name));
  }
  CHECK(evaluate(jurisdiction({}), good_facts()).standing == Standing::unknown);
}

TEST_CASE("a row that says none sets no limit", "[identity]") {
  auto rows = row_texts();
  for (auto& [name, row] : rows) row.value = "none";
  CHECK(evaluate(jurisdiction(rows), Facts{good_facts()}).standing == Standing::ask_authority);
  Facts bare;
  bare.day = good_facts().day;
  CHECK(evaluate(jurisdiction(rows), bare).standing == Standing::ask_authority);
  CHECK_FALSE(limits_of(jurisdiction(rows)).season_share);
  CHECK_FALSE(limits_of(jurisdiction(rows)).disease_finding_needed);
}

TEST_CASE("an old, undated or unchecked row gives unknown, but still blocks", "[identity]") {
  Jurisdiction j = jurisdiction();
  Rule& wind =
      *std::find_if(j.rules.begin(), j.rules.end(), [](const Rule& r) { return r.name == "most_wind"; });
  wind.as_of = good_facts().day - rule_lasts_days;
  CHECK(evaluate(j, good_facts()).standing == Standing::ask_authority);
  wind.as_of = good_facts().day - rule_lasts_days - 1;
  CHECK(unknown_by(j, good_facts(), "most_wind"));
  wind.as_of.reset();
  CHECK(unknown_by(j, good_facts(), "most_wind"));
  wind.as_of = make_date(2026, 8, 1);
  wind.checked = false;
  CHECK(unknown_by(j, good_facts(), "most_wind"));
  Facts windy = good_facts();
  windy.wind_m_s = 20.0;
  CHECK(evaluate(j, windy).standing == Standing::blocked);
  Facts answered = good_facts();
  answered.answer = "Ask again tomorrow.";
  CHECK(evaluate(j, answered).standing == Standing::unknown);
}

TEST_CASE("what is not known of the field gives unknown", "[identity]") {
  const Jurisdiction j = jurisdiction();
  CHECK(unknown_by(j, with([](Facts& f) { f.days_since_cut.reset(); }), "dry_days_spread"));
  CHECK(unknown_by(j, with([](Facts& f) { f.days_since_rain_reset.reset(); }), "rain_reset"));
  CHECK(unknown_by(j, with([](Facts& f) { f.wind_m_s.reset(); }), "most_wind"));
  CHECK(unknown_by(j, with([](Facts& f) { f.disease_finding.reset(); }), "disease_finding"));
  CHECK(unknown_by(j, with([](Facts& f) { f.to_home_m.reset(); }), "setback_home"));
  CHECK(unknown_by(j, with([](Facts& f) { f.season_burned_share.reset(); }), "season_share"));
}

TEST_CASE("a row with a strange name or value is never passed over", "[identity]") {
  auto rows = row_texts();
  rows["moon_phase"] = {"full", "phase", "="};
  CHECK(unknown_by(jurisdiction(rows), good_facts(), "moon_phase"));
  rows = row_texts();
  rows["daily_area"] = {"60", "hides", "<="};
  CHECK(unknown_by(jurisdiction(rows), good_facts(), "daily_area"));
  CHECK_FALSE(limits_of(jurisdiction(rows)).daily_area_ha);
  rows["daily_area"] = {"-5", "ha", "<="};
  CHECK(unknown_by(jurisdiction(rows), good_facts(), "daily_area"));
  rows = row_texts();
  rows["rain_reset"].value = "a shower";
  CHECK(unknown_by(jurisdiction(rows), good_facts(), "rain_reset"));
}

TEST_CASE("limits in the units of the evaluation", "[derived]") {
  const Limits l = limits_of(jurisdiction());
  CHECK(*l.autumn_from == MonthDay{9, 1});
  CHECK(*l.spring_to == MonthDay{5, 31});
  CHECK(*l.dry_days_windrow == 10);
  CHECK(*l.disease_finding_needed);
  test::check({{"15 mph [m/s]", "definition", test::Kind::derived, 6.7056, *l.most_wind_m_s, 1e-9},
               {"100 ft [m]", "definition", test::Kind::derived, 30.48, *l.setback_m[2], 1e-9},
               {"17:00 [h]", "definition", test::Kind::derived, 17.0, *l.end_hour, 1e-12}});
  auto rows = row_texts();
  rows["daily_area"] = {"100", "acre", "<="};
  rows["season_share"] = {"25", "%", "<="};
  rows["least_wind"] = {"5", "km/h", ">="};
  rows["start_from"].value = "10:30";
  const Limits other = limits_of(jurisdiction(rows));
  test::check({{"100 acre [ha]", "definition", test::Kind::derived, 40.468564224, *other.daily_area_ha, 1e-8},
               {"25 % [share]", "definition", test::Kind::derived, 0.25, *other.season_share, 1e-12},
               {"5 km/h [m/s]", "definition", test::Kind::derived, 5 / 3.6, *other.least_wind_m_s, 1e-8},
               {"10:30 [h]", "definition", test::Kind::derived, 10.5, *other.start_hour, 1e-12}});
}
