// Jurisdictions as files: a fourth, invented one with limits that the others lack, and the shipped examples.
#include <algorithm>
#include <regex>

#include "aftercut/burn/rules.hpp"
#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::burn;
using test::Kind;

namespace {

Jurisdiction place(const std::string& file) {
  const auto text = read_file(std::string{AFTERCUT_SOURCE_DIR} + "/" + file);
  REQUIRE(text.ok());
  const auto read = read_jurisdiction(text.value(), file);
  for (const Issue& i : read.issues()) UNSCOPED_INFO(to_text(i));
  REQUIRE(read.ok());
  return read.value();
}

Jurisdiction example(const std::string& name) { return place("docs/examples/burn-rules/" + name + ".json"); }

/// As if the grower had gone through every row with the authority, with no limit where a row is missing.
Jurisdiction gone_through(Jurisdiction j) {
  std::vector<std::string> missing;
  for (const std::string& name : known_rule_names())
    if (std::none_of(j.rules.begin(), j.rules.end(), [&](const Rule& r) { return r.name == name; }))
      missing.push_back(name);
  for (Rule& rule : rows_without_limit(missing, j.rules.front())) j.rules.push_back(std::move(rule));
  for (Rule& rule : j.rules) {
    rule.checked = true;
    rule.as_of = make_date(2026, 8, 1);
  }
  return j;
}

bool blocked_by(const Jurisdiction& j, const Facts& f, const std::string& rule) {
  const Finding finding = evaluate(j, f);
  return finding.standing == Standing::blocked &&
         std::any_of(finding.rows.begin(), finding.rows.end(),
                     [&](const RowWords& row) { return row.name.starts_with(rule); });
}

bool asks(const Jurisdiction& j, const Facts& f) {
  const Finding finding = evaluate(j, f);
  for (const RowWords& row : finding.rows) UNSCOPED_INFO(to_text(row));
  return finding.standing == Standing::ask_authority;
}

/// A Tuesday in autumn, everything at hand.
Facts fourth_facts() {
  Facts f;
  f.day = make_date(2026, 10, 20);
  f.area = Hectare{10.0};
  f.days_since_cut = f.days_since_rain_reset = 20;
  f.start_hour = 11.0;
  f.sunrise_hour = 7.3;
  f.sunset_hour = 17.4;
  f.zone = "A";
  f.harvest = make_date(2026, 9, 20);
  f.people = 4;
  f.water_l = 1900.0;
  return f;
}

Facts facts_with(void (*change)(Facts&)) {
  Facts f = fourth_facts();
  change(f);
  return f;
}

}  // namespace

TEST_CASE("a fourth place, from its file alone: each limit blocks when broken and not when kept",
          "[identity]") {
  const Jurisdiction j = place("tests/burn/places/fourth.json");
  CHECK(asks(j, fourth_facts()));
  // The weekend.
  CHECK(blocked_by(j, facts_with([](Facts& f) { f.day = make_date(2026, 10, 24); }), "weekdays_banned"));
  CHECK(blocked_by(j, facts_with([](Facts& f) { f.day = make_date(2026, 10, 25); }), "weekdays_banned"));
  CHECK(asks(j, facts_with([](Facts& f) { f.day = make_date(2026, 10, 26); })));
  // One burn of at most 30 acres, 12.14 ha.
  CHECK(blocked_by(j, facts_with([](Facts& f) { f.area = Hectare{12.15}; }), "burn_area"));
  CHECK(asks(j, facts_with([](Facts& f) { f.area = Hectare{12.14}; })));
  // People and water.
  CHECK(blocked_by(j, facts_with([](Facts& f) { f.people = 3; }), "least_people"));
  CHECK(blocked_by(j, facts_with([](Facts& f) { f.water_l = 1892.0; }), "least_water"));  // 500 gal: 1892.7 L
  CHECK(asks(j, facts_with([](Facts& f) { f.water_l = 1893.0; })));
  CHECK(evaluate(j, facts_with([](Facts& f) { f.people.reset(); })).standing == Standing::unknown);
  // Two hours before the sun sets at 17:24.
  CHECK(blocked_by(j, facts_with([](Facts& f) { f.start_hour = 15.5; }), "before_sunset"));
  CHECK(asks(j, facts_with([](Facts& f) { f.start_hour = 15.4; })));
  // Zone A after a harvest in an even year, zone B after one in an odd year.
  CHECK(blocked_by(j, facts_with([](Facts& f) { f.zone = "B"; }), "zones_even_years"));
  CHECK(blocked_by(j, facts_with([](Facts& f) { f.harvest = make_date(2025, 9, 20); }), "zones_odd_years"));
  CHECK(asks(j, facts_with([](Facts& f) {
               f.zone = "B";
               f.harvest = make_date(2025, 9, 20);
             })));
  CHECK(evaluate(j, facts_with([](Facts& f) { f.zone.reset(); })).standing == Standing::unknown);
}

TEST_CASE("the shipped examples are marked as such and never more than unknown as they stand", "[identity]") {
  for (const char* name : {"sacramento-valley", "europe-ban-with-leave", "riverina-rice"}) {
    CAPTURE(name);
    const Jurisdiction j = example(name);
    CHECK(j.name.find("example, check with the authority") != std::string::npos);
    for (const Rule& rule : j.rules) {
      CAPTURE(rule.name);
      CHECK_FALSE(rule.checked);
      CHECK(std::regex_search(rule.source, std::regex{"read|recalled|from memory|association"}));
    }
    Facts f = fourth_facts();
    f.leave = "leave of 3 October";
    f.answer = "Yes.";
    const Standing s = evaluate(j, f).standing;
    CHECK((s == Standing::unknown || s == Standing::blocked));
  }
}

TEST_CASE("Sacramento Valley rows", "[published]") {
  const Jurisdiction j = gone_through(example("sacramento-valley"));
  const Limits l = limits_of(j);
  test::check({
      {"rain reset 0.15 inch [mm]", "DryingRows", Kind::derived, 3.81, *l.rain_reset_mm, 1e-12},
      {"share of the planted area", "CaliforniaShare", Kind::published, 0.25, *l.season_share, 1e-12},
      {"a grower of 400 ha: cap [ha]", "CaliforniaShare", Kind::derived, 100.0, *l.season_share * 400.0,
       1e-9},
      {"stem rot threshold", "CaliforniaDisease", Kind::published, 0.15, l.sample_shares.at("stem rot"),
       1e-12},
      {"blast threshold", "CaliforniaBlast", Kind::published, 0.018, l.sample_shares.at("blast"), 1e-12},
  });
  CHECK_FALSE(resets_drying(l, Millimetre{3.81}));
  CHECK(resets_drying(l, Millimetre{3.82}));
  Facts f = fourth_facts();
  f.disease_finding = true;
  f.samples = {{"stem rot", 0.15}};
  f.clean_years = 3;
  f.season_burned_share = 0.25;
  CHECK(asks(j, f));
  const auto changed = [&](auto change) {
    Facts g = f;
    change(g);
    return g;
  };
  CHECK(blocked_by(j, changed([](Facts& g) { g.days_since_cut = 2; }), "dry_days_spread"));
  CHECK(asks(j, changed([](Facts& g) { g.days_since_cut = 3; })));
  CHECK(blocked_by(j, changed([](Facts& g) { g.start_hour = 9 + 59.0 / 60; }), "start_from"));
  CHECK(blocked_by(j, changed([](Facts& g) { g.start_hour = 17 + 1.0 / 60; }), "start_until"));
  CHECK(blocked_by(j, changed([](Facts& g) { g.season_burned_share = 100.1 / 400.0; }), "season_share"));
  CHECK(blocked_by(j, changed([](Facts& g) { g.clean_years = 2; }), "clean_record"));
  CHECK(blocked_by(j, changed([](Facts& g) { g.called = false; }), "day_class"));
  CHECK(blocked_by(j, changed([](Facts& g) { g.ignition = "heading"; }), "ignition"));
  // Rain two days ago starts the drying anew; a passed test of the day stands in its place.
  CHECK(blocked_by(j, changed([](Facts& g) { g.days_since_rain_reset = 2; }), "rain_reset"));
  CHECK(asks(j, changed([](Facts& g) {
               g.days_since_rain_reset = 2;
               g.dryness_test = true;
             })));
  // Cut before 10 September: closed from 1 October to 15 November without leave.
  const Facts early = changed([](Facts& g) { g.harvest = make_date(2026, 9, 9); });
  CHECK(blocked_by(j, early, "early_harvest_before"));
  CHECK(asks(j, changed([](Facts& g) { g.harvest = make_date(2026, 9, 10); })));
  Facts with_leave = early;
  with_leave.leave = "leave of 3 October";
  CHECK(asks(j, with_leave));
  Facts later = early;
  later.day = make_date(2026, 11, 16);
  CHECK(asks(j, later));
}

TEST_CASE("samples: one that reaches its threshold is enough, none leaves it unknown", "[identity]") {
  const Jurisdiction j = gone_through(example("sacramento-valley"));
  const auto standing = [&](std::vector<Sample> samples) {
    Facts f = fourth_facts();
    f.disease_finding = true;
    f.clean_years = 9;
    f.season_burned_share = 0.1;
    f.samples = std::move(samples);
    return evaluate(j, f).standing;
  };
  CHECK(standing({}) == Standing::unknown);
  CHECK(standing({{"stem rot", 0.10}}) == Standing::unknown);  // the two others are not sampled
  CHECK(standing({{"blast", 0.02}}) == Standing::ask_authority);
  CHECK(standing({{"stem rot", 0.10}, {"aggregate sheath spot", 0.14}, {"blast", 0.017}}) ==
        Standing::blocked);
  CHECK(standing({{"stem rot", 0.10}, {"blast", 0.02}}) == Standing::ask_authority);
}

TEST_CASE("a ban with individual leave", "[published]") {
  const Jurisdiction j = gone_through(example("europe-ban-with-leave"));
  Facts f = fourth_facts();
  f.to_home_m = 120.0;
  f.to_trees_m = 250.0;
  f.wind_m_s = 3.0;
  CHECK(blocked_by(j, f, "default_ban"));  // Source: FranceCAP (read)
  f.leave = "arrete of 3 October, parcel 7";
  const Finding with_leave = evaluate(j, f);
  // The season windows have no row: none is given, so that nothing closes the calendar.
  CHECK(with_leave.standing != Standing::blocked);
  f.wind_m_s = 5.6;  // 20 km/h is 5.56 m/s
  CHECK(blocked_by(j, f, "most_wind"));
}

TEST_CASE("Riverina rice rows", "[published]") {
  // Source: RiverinaRice (read).
  const Jurisdiction j = gone_through(example("riverina-rice"));
  const Limits l = limits_of(j);
  test::check({{"least wind 5 km/h [m/s]", "RiverinaRice", Kind::derived, 5 / 3.6, *l.least_wind_m_s, 1e-8},
               {"most wind 25 km/h [m/s]", "RiverinaRice", Kind::derived, 25 / 3.6, *l.most_wind_m_s, 1e-8},
               {"drying [days]", "RiverinaRice", Kind::published, 4.0, *l.dry_days_spread * 1.0, 0.0}});
  Facts f = fourth_facts();
  f.day = make_date(2027, 4, 20);
  f.wind_m_s = 3.0;
  f.firebreak_m = 4.0;
  CHECK(asks(j, f));
  f.start_hour = 10.9;
  CHECK(blocked_by(j, f, "start_from"));
  f.start_hour = 16.1;
  CHECK(blocked_by(j, f, "start_until"));
  f.start_hour = 12.0;
  f.wind_m_s = 1.3;
  CHECK(blocked_by(j, f, "least_wind"));
  f.wind_m_s = 7.0;
  CHECK(blocked_by(j, f, "most_wind"));
  f.wind_m_s = 3.0;
  f.days_since_cut = 3;
  CHECK(blocked_by(j, f, "dry_days_spread"));
}
