// What day d may know: the weather to the end of d-1, day d's own mask and burn call, the days of a forecast;
// never the rest of the year.

#include <algorithm>
#include <functional>
#include <set>

#include "catch2/catch.hpp"
#include "decisions.hpp"
#include "hired_farm.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

constexpr std::size_t winters = 8;
constexpr int pairs_tried = 500;

/// The small farm with every method open, a baler's outfit that may come late and keeps its own order, and
/// findings that let fields burn.
farm::Problem whole_farm() {
  farm::Problem p = test::open_problem(static_cast<int>(winters));
  for (farm::Field& f : p.farm.fields) f.disease_finding = true;
  machinery::Hire& terms = test::terms_of(p);
  terms.comes = {{make_date(2026, 9, 20), 0.5}, {make_date(2026, 10, 10), 1.0}};
  terms.order = {FieldId{"5"}, FieldId{"2"}};
  terms.bales_off_by = make_date(2026, 11, 20);
  test::put(*p.farm.burning, "disease_finding", "none", "yes/no");
  test::put(*p.farm.burning, "season_share", "none", "%");
  for (method::Recipe& r : p.farm.book.recipes)
    if (r.bales) r.fall_back->start_by = {9, 30};
  return p;
}

/// Year `a` up to and including `day`, then year `b`.
weather::Year spliced(const farm::Problem& p, std::size_t a, std::size_t b, int day) {
  weather::Year year = p.years.years[a];
  const weather::Year& later = p.years.years[b];
  const auto from = static_cast<std::ptrdiff_t>(day) + 1;
  std::copy(later.days.begin() + from, later.days.end(), year.days.begin() + from);
  std::copy(later.et0_mm.begin() + from, later.et0_mm.end(), year.et0_mm.begin() + from);
  return year;
}

struct Decided {
  std::vector<plan::Work> work;
  std::vector<plan::WaterIn> water;
  friend bool operator==(const Decided&, const Decided&) = default;
};

Decided until(const plan::YearRun& run, int day) {
  Decided kept;
  for (const auto& w : run.work)
    if (w.day <= day) kept.work.push_back(w);
  for (const auto& w : run.water)
    if (w.day <= day) kept.water.push_back(w);
  return kept;
}

/// Plays a decision on a table of one year; a rule that peeks does what it should not before it plays.
using Rule = std::function<plan::YearRun(dispatch::Table&, const plan::Decision&)>;

plan::YearRun sound(dispatch::Table& t, const plan::Decision& d) { return dispatch::run(t, d, 0); }

/// What the pairs of years and days came to under a rule.
struct Seen {
  int changed_before = 0;  ///< pairs in which a decision up to the day was another
  int changed_after = 0;
  std::set<std::string> operations;
  int waits = 0, fallen_back = 0, waters = 0;
};

void note(Seen& seen, const farm::Farm& farm, const plan::YearRun& run) {
  for (const auto& w : run.work) {
    seen.operations.insert(farm.book.operations[static_cast<std::size_t>(w.operation)].id.value);
    seen.waits += w.stands_by ? 1 : 0;
    seen.fallen_back += w.fell_back ? 1 : 0;
  }
  seen.waters += static_cast<int>(run.water.size());
}

Seen play_pairs(farm::Problem p, const Rule& rule, int count, bool until_caught = false) {
  Seen seen;
  const farm::Problem whole = p;
  for (int k = 0; k < count && !(until_caught && seen.changed_before > 0); ++k) {
    Draws draws{11, stream_of("foresight"), static_cast<std::uint64_t>(k)};
    const std::size_t a = draws.below(winters), b = (a + 1 + draws.below(winters - 1)) % winters;
    const int day = 12 + static_cast<int>(draws.below(k % 2 == 0 ? 60 : 250));  // half of them in autumn
    p.years.years = {spliced(whole, a, a, day)};
    dispatch::Table alone = dispatch::make_table(p, 7);
    const plan::Decision decision = test::random_decision(alone, draws);
    const plan::YearRun x = rule(alone, decision);
    p.years.years = {spliced(whole, a, b, day)};
    dispatch::Table changed = dispatch::make_table(p, 7);
    const plan::YearRun y = rule(changed, decision);
    if (until(x, day) != until(y, day)) ++seen.changed_before;
    if (x.work != y.work) ++seen.changed_after;
    note(seen, p.farm, x);
  }
  return seen;
}

const weather::Day& like(const farm::Problem& p, int day) {
  return p.years.years.front().days[static_cast<std::size_t>(day)];
}

/// Rules that look ahead, each by another way.
struct Peek {
  const char* what;
  Rule rule;
};

/// The mask of a day knows the rain of the next one.
plan::YearRun rain_of_tomorrow(dispatch::Table& t, const plan::Decision& d) {
  auto& rain = t.drivers[0].rain_mm;
  std::rotate(rain.begin(), rain.begin() + 1, rain.end());
  return dispatch::run(t, d, 0);
}

/// Straw is as wet in the afternoon as tomorrow's rain and dew will make it.
plan::YearRun straw_of_tomorrow(dispatch::Table& t, const plan::Decision& d) {
  auto& wetting = t.drivers[0].straw_wetting_mm;
  std::rotate(wetting.begin(), wetting.begin() + 1, wetting.end());
  return dispatch::run(t, d, 0);
}

/// Of two decisions the one that turns out cheaper in this very year.
plan::YearRun chosen_afterwards(dispatch::Table& t, const plan::Decision& d) {
  plan::Decision other = d;
  std::reverse(other.autumn_order.begin(), other.autumn_order.end());
  std::reverse(other.spring_order.begin(), other.spring_order.end());
  plan::YearRun one = dispatch::run(t, d, 0), two = dispatch::run(t, other, 0);
  return dispatch::cost_of(two) < dispatch::cost_of(one) ? two : one;
}

/// A field is not begun before the wettest week of the year is over.
plan::YearRun after_the_storm(dispatch::Table& t, const plan::Decision& d) {
  const auto& rain = t.drivers[0].rain_mm;
  const auto wettest = std::max_element(rain.begin() + 20, rain.begin() + 80);
  return dispatch::run(t, d, 0,
                       {.start_after_field = 0, .start_after_day = static_cast<int>(wettest - rain.begin())});
}

/// The authority calls days after which it stays dry.
plan::YearRun calls_by_later_rain(dispatch::Table& t, const plan::Decision& d) {
  auto& called = t.burn_days[0].called;
  for (std::size_t day = 0; day + 1 < called.size(); ++day)
    called[day] = t.drivers[0].rain_mm[day + 1] <= 0.0 ? called[day] : char{0};
  return dispatch::run(t, d, 0);
}

/// The baler comes when a dry spell begins.
plan::YearRun comes_for_the_dry_spell(dispatch::Table& t, const plan::Decision& d) {
  const auto& rain = t.drivers[0].rain_mm;
  const auto dry = std::search_n(rain.begin() + 15, rain.begin() + 80, 10, 0.0);
  t.hired_from[0][test::baler_of_small_farm] = static_cast<int>(dry - rain.begin());
  return dispatch::run(t, d, 0);
}

}  // namespace

TEST_CASE("decisions up to a day do not change when the weather after it does", "[identity]") {
  const Seen seen = play_pairs(whole_farm(), sound, pairs_tried);
  CHECK(seen.changed_before == 0);
  CHECK(seen.changed_after > pairs_tried / 4);  // the other year does make a difference afterwards
  for (const char* operation : {"burn", "bale", "rake", "chop", "disk", "boards_in", "cage_roll", "chisel"}) {
    CAPTURE(operation);
    CHECK(seen.operations.contains(operation));
  }
  CHECK(seen.waits > 0);
  CHECK(seen.fallen_back > 0);
  CHECK(seen.waters > 1000);
}

TEST_CASE("days of a forecast are the same in all years, and nothing behind them is known", "[identity]") {
  farm::Problem p = whole_farm();
  weather::Series forecast{.first = p.as_of, .days = {}};
  for (int k = 0; k < 7; ++k) forecast.days.push_back(like(p, p.farm.season.day(p.as_of) + k));
  weather::put_forecast_in_front(p.years, forecast, p.farm.site);
  const Seen seen = play_pairs(p, sound, 60);
  CHECK(seen.changed_before == 0);
  CHECK(seen.changed_after > 15);
}

TEST_CASE("rules that look ahead are caught", "[identity]") {
  const std::vector<Peek> peeks{
      {"rain of tomorrow", rain_of_tomorrow},         {"straw of tomorrow", straw_of_tomorrow},
      {"lists chosen afterwards", chosen_afterwards}, {"waits for the storm to be over", after_the_storm},
      {"calls by later rain", calls_by_later_rain},   {"comes for the dry spell", comes_for_the_dry_spell}};
  for (const Peek& peek : peeks) {
    CAPTURE(peek.what);
    CHECK(play_pairs(whole_farm(), peek.rule, pairs_tried, true).changed_before > 0);
  }
}
