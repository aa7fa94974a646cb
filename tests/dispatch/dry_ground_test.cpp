// Dry ground: what waits for moisture and for how long, and what hard ground does to pace and fuel.

#include <algorithm>

#include "aftercut/dispatch/progress.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"
#include "rows.hpp"

using namespace aftercut;
using test::check;
using test::Kind;

namespace {

/// No rain after January, little from below, and a dry limit just under the wet one: seedbeds are soon too
/// dry.
farm::Problem dry_spring(int most_wait_days) {
  farm::Problem p = test::without_rain_from(test::small_problem(3), 150);
  soil::ProfileInput hard = p.farm.soils[0].input;
  hard.entered_dry_limit = 0.40;
  hard.capillary_mm_per_day = 1.0;
  p.farm.soils[0] = soil::make_profile(hard);
  p.farm.most_dry_wait_days = most_wait_days;
  return p;
}

std::vector<plan::YearRun> play(const farm::Problem& p, std::optional<int> only_field = {}) {
  const dispatch::Table t = dispatch::make_table(p, 7);
  const plan::Decision d = test::decide(p.farm, {"chop_disk", "leave", "chop_disk", "leave", "leave"});
  std::vector<plan::YearRun> runs;
  for (std::size_t y = 0; y < p.years.years.size(); ++y)
    runs.push_back(dispatch::run(t, d, y, {.only_field = only_field}));
  return runs;
}

/// First and last day on which this operation was at work on a field; first > last: never.
struct Span {
  int first = 1000, last = -1;
};
Span span_of(const farm::Farm& farm, const plan::YearRun& run, int field, const std::string& operation) {
  Span s;
  for (const auto& w : run.work) {
    if (w.field != field || farm.book.operations[static_cast<std::size_t>(w.operation)].id.value != operation)
      continue;
    s = {std::min(s.first, w.day), std::max(s.last, w.day)};
  }
  return s;
}

double fuel_of(const std::vector<plan::YearRun>& runs) {
  double litres = 0.0;
  for (const auto& run : runs)
    for (const auto& field : run.fields) litres += field.fuel_l;
  return litres;
}

std::int64_t minutes_of(const std::vector<plan::YearRun>& runs) {
  std::int64_t minutes = 0;
  for (const auto& run : runs)
    for (const auto& field : run.fields) minutes += field.machine_min;
  return minutes;
}

farm::Problem with_gain(double gain, double tractor_kw = 150.0) {
  farm::Problem p = test::small_problem(3);
  soil::ProfileInput in = p.farm.soils[0].input;
  in.dry_draft_gain = gain;
  p.farm.soils[0] = soil::make_profile(in);
  for (auto& t : p.farm.tractors) t.pto_power = KiloWatt{tractor_kw};
  return p;
}

constexpr int rice_fields[] = {0, 1, 2, 4};

}  // namespace

TEST_CASE("a finishing pass waits its days in a spring without rain, and no longer", "[identity]") {
  const int wait = 5;
  const farm::Problem p = dry_spring(wait);
  for (const auto& run : play(p))
    for (const int f : rice_fields) {
      CAPTURE(run.year, f);
      const Span disk = span_of(p.farm, run, f, "disk_spring"), plane = span_of(p.farm, run, f, "plane"),
                 groove = span_of(p.farm, run, f, "groove_roll");
      CHECK(plane.first > disk.last + wait);
      CHECK(groove.first > plane.last);
      CHECK(groove.first > disk.last + wait);
      CHECK(run.fields[static_cast<std::size_t>(f)].ready_day == groove.last);  // done all the same
      CHECK(run.fields[static_cast<std::size_t>(f)].finished_dry == 2);
    }
}

TEST_CASE("a field alone is finished on the first day after its wait", "[identity]") {
  const int wait = 12;  // longer than the six millimetres of drying take
  const farm::Problem p = dry_spring(wait);
  for (const auto& run : play(p, 2)) {
    const Span disk = span_of(p.farm, run, 2, "disk_spring"), plane = span_of(p.farm, run, 2, "plane");
    CAPTURE(run.year);
    const int free = disk.last + wait + 1;
    const Span groove = span_of(p.farm, run, 2, "groove_roll");
    CHECK(plane.first >= free);
    CHECK(plane.first <= free + 1);         // nobody works on Sunday
    CHECK(groove.first <= plane.last + 2);  // the seedbed waits once, not each pass
  }
}

TEST_CASE("ground that has no more water to lose is finished all the same", "[regression]") {
  farm::Problem p = dry_spring(7);
  soil::ProfileInput parched = p.farm.soils[0].input;
  parched.capillary_mm_per_day = 0.0;
  p.farm.soils[0] = soil::make_profile(parched);
  for (auto& op : p.farm.book.operations) {  // disked as soon as it is workable, planed after it has dried
    if (op.id.value == "disk_spring") op.when.least_drying_mm.reset();
    if (op.id.value == "plane") op.when.least_drying_mm = 40.0;
  }
  for (const auto& run : play(p))
    for (const int f : rice_fields) {
      CAPTURE(run.year, f);
      CHECK(run.fields[static_cast<std::size_t>(f)].ready_day != plan::none);
    }
}

TEST_CASE("without days of waiting dry ground holds nothing back", "[identity]") {
  const farm::Problem waits = dry_spring(14), goes_on = dry_spring(0);
  const auto late = play(waits, 2), early = play(goes_on, 2);
  for (std::size_t y = 0; y < late.size(); ++y) {
    CHECK(early[y].fields[2].ready_day < late[y].fields[2].ready_day);
    CHECK(early[y].fields[2].finished_dry == 2);
    // What is no finishing pass goes on as before.
    for (const char* op : {"disk", "chisel", "disk_spring"}) {
      CHECK(span_of(waits.farm, late[y], 2, op).first == span_of(goes_on.farm, early[y], 2, op).first);
      CHECK(span_of(waits.farm, late[y], 2, op).last == span_of(goes_on.farm, early[y], 2, op).last);
    }
  }
}

TEST_CASE("a dry limit that is never reached holds nothing back", "[identity]") {
  farm::Problem p = test::small_problem(3);
  soil::ProfileInput in = p.farm.soils[0].input;
  in.entered_dry_limit = 0.02;  // drier than the seedbed ever gets
  p.farm.soils[0] = soil::make_profile(in);
  for (const auto& run : play(p))
    for (const auto& field : run.fields) CHECK(field.finished_dry == 0);
}

TEST_CASE("hard ground takes fuel while there is power, and pace beyond it", "[derived]") {
  const dispatch::Outfit o{.tractor = 0,
                           .implement = 0,
                           .ha_per_hour = 4.0,
                           .fuel_l_per_hour = 38.6,
                           .pulled_kw = 100.0,
                           .rotary_kw = 10.0,
                           .tractor_kw = 150.0};
  const auto ha = [&](double factor) { return dispatch::pace_of(o, factor).ha_per_hour; };
  const auto fuel = [&](double factor) { return dispatch::pace_of(o, factor).fuel_l_per_hour; };
  const char* rule = "rules of work, Rates and fuel; fuel by Grisso2004 (recalled)";
  check({{"easiest ground, rate", rule, Kind::derived, 4.0, ha(1.0), 0.0},
         {"easiest ground, fuel as stated", rule, Kind::derived, 38.6, fuel(1.0), 0.0},
         {"factor 1.2 asks for 130 kW of 150, rate", rule, Kind::derived, 4.0, ha(1.2), 1e-12},
         {"factor 1.2, fuel 0.22 x 130 + 0.096 x 150", rule, Kind::derived, 43.0, fuel(1.2), 1e-9},
         {"factor 1.5 asks for 160 kW, rate 4 x 150 / 160", rule, Kind::derived, 3.75, ha(1.5), 1e-12},
         {"factor 1.5, full fuel 0.316 x 150", rule, Kind::derived, 47.4, fuel(1.5), 1e-9}});
  dispatch::Outfit hired = o;
  hired.tractor = plan::none;
  hired.pulled_kw = hired.rotary_kw = hired.tractor_kw = hired.fuel_l_per_hour = 0.0;
  CHECK(dispatch::pace_of(hired, 1.5).ha_per_hour == 4.0);
  CHECK(dispatch::pace_of(hired, 1.5).fuel_l_per_hour == 0.0);
}

TEST_CASE("an outfit carries what its implement asks for", "[identity]") {
  const farm::Problem p = test::small_problem(1);
  const dispatch::Table t = dispatch::make_table(p, 7);
  for (std::size_t op = 0; op < p.farm.book.operations.size(); ++op)
    for (const dispatch::Outfit& o : t.outfits[0][op]) {
      CAPTURE(p.farm.book.operations[op].id.value);
      CHECK((o.tractor_kw > 0.0) == (o.tractor != plan::none));
      CHECK(o.pulled_kw + o.rotary_kw <= o.tractor_kw);
      if (o.tractor == plan::none) continue;
      CHECK(o.fuel_l_per_hour ==
            Approx(0.22 * (o.pulled_kw + o.rotary_kw) + 0.096 * o.tractor_kw).epsilon(1e-12));
    }
}

TEST_CASE("a year takes more fuel where dry ground pulls harder, and more hours where power is short",
          "[identity]") {
  const auto easy = play(with_gain(0.0), 2), hard = play(with_gain(0.5), 2);
  CHECK(fuel_of(hard) > 1.02 * fuel_of(easy));
  const auto weak_easy = play(with_gain(0.0, 90.0), 2), weak_hard = play(with_gain(1.5, 90.0), 2);
  CHECK(10 * minutes_of(weak_hard) > 11 * minutes_of(weak_easy));
  CHECK(minutes_of(hard) == minutes_of(easy));  // 150 kW are enough for half more draft
}

TEST_CASE("hard ground calls for the stronger tractor, and slows the weaker one where it is alone",
          "[identity]") {
  farm::Problem both = dry_spring(0), weak_only = dry_spring(0);
  weak_only.farm.tractors[0].away = {{make_date(2026, 9, 1), make_date(2027, 5, 31)}};
  const auto minutes = [](const farm::Problem& p, const plan::YearRun& run, const char* op, int tractor) {
    int sum = 0;
    for (const auto& w : run.work) {
      if (p.farm.book.operations[static_cast<std::size_t>(w.operation)].id.value != op) continue;
      CHECK(w.tractor == tractor);
      sum += w.end_min - w.start_min;
    }
    return sum;
  };
  const auto strong = play(both, 2), weak = play(weak_only, 2);
  for (std::size_t y = 0; y < strong.size(); ++y) {
    // 85 kW at the PTO, half more on too dry ground: beyond 120 kW, not beyond 220.
    CHECK(minutes(weak_only, weak[y], "plane", 1) > minutes(both, strong[y], "plane", 0));
    CHECK(minutes(both, strong[y], "disk_spring", 1) > 0);  // opened ground needs no more than before
  }
}

TEST_CASE("only tillage pulls harder, and a finishing pass on too dry ground pulls hardest", "[identity]") {
  const soil::Profile soil = test::small_farm().soils[0];
  method::Operation op;
  season::DayMask mask{.too_dry = true, .draft_factor = 1.2};
  CHECK(dispatch::draft_factor_of(soil, op, mask) == 1.0);
  op.tillage = true;
  CHECK(dispatch::draft_factor_of(soil, op, mask) == 1.2);
  op.when.not_too_dry = true;
  CHECK(dispatch::draft_factor_of(soil, op, mask) == 1.5);
  mask.too_dry = false;
  CHECK(dispatch::draft_factor_of(soil, op, mask) == 1.2);
}
