// Chances said in past winters: nothing before the date is another winter's, nothing from it on is the
// winter's own, and what is said is what the runs come to.

#include "aftercut/review/hindcast.hpp"

#include <algorithm>

#include "catch2/catch.hpp"
#include "hired_farm.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

constexpr std::size_t winter_count = 6;
constexpr int first_of_october = 30, first_of_november = 61, first_of_march = 181;

/// The small farm with every method open, fields that burn on sampled days and a baler that may come late.
farm::Problem looked_back_on() {
  farm::Problem p = test::open_problem(static_cast<int>(winter_count));
  for (farm::Field& f : p.farm.fields) f.disease_finding = true;
  for (burn::Rule& rule : p.farm.burning->rules)
    if (rule.name == "season_share" || rule.name == "disease_finding") rule.value = "none";
  test::terms_of(p).comes = {
      {make_date(2026, 9, 20), 0.3}, {make_date(2026, 10, 10), 0.7}, {make_date(2026, 11, 5), 1.0}};
  return review::past_winters(p);
}

struct Past {
  farm::Problem problem = looked_back_on();
  dispatch::Table table = dispatch::make_table(problem, 7);
};

const Past& past() {
  static const Past p;
  return p;
}

plan::Decision drawn_decision(std::uint64_t k) {
  Draws draws{3, stream_of("hindcast decisions"), k};
  return test::random_decision(past().table, draws);
}

struct Done {
  std::vector<plan::Work> work;
  std::vector<plan::WaterIn> water;
  friend bool operator==(const Done&, const Done&) = default;
};

Done before(const plan::YearRun& run, int day) {
  Done kept;
  std::ranges::copy_if(run.work, std::back_inserter(kept.work), [day](const auto& w) { return w.day < day; });
  std::ranges::copy_if(run.water, std::back_inserter(kept.water),
                       [day](const auto& w) { return w.day < day; });
  return kept;
}

review::HindcastInput asked(const farm::Problem& problem, int threads = 1) {
  return {.problem = &problem,
          .days = {first_of_november, first_of_march},
          .seed = 7,
          .threads = threads,
          .choose = [](const dispatch::Table&, const std::vector<std::size_t>& others) {
            return drawn_decision(others.front() == 0 ? others.size() : 0);
          }};
}

}  // namespace

TEST_CASE("work before the date is the winter's own, byte for byte", "[identity]") {
  int burned = 0, baled = 0, watered = 0, differ_after = 0, runs = 0;
  for (std::uint64_t k = 0; k < 12; ++k) {
    const plan::Decision decision = drawn_decision(k);
    const std::size_t winter = k % winter_count;
    const plan::YearRun own = dispatch::run(past().table, decision, winter);
    for (const int day : {20, first_of_october, first_of_november, 122, first_of_march}) {
      const Done known = before(own, day);
      for (const plan::YearRun& run : review::runs_known_until(past().table, decision, winter, day)) {
        CHECK(before(run, day) == known);
        ++runs;
        differ_after += run.work != own.work ? 1 : 0;
      }
      for (const plan::Work& w : known.work) {
        const std::string& id =
            past().problem.farm.book.operations[static_cast<std::size_t>(w.operation)].id.value;
        burned += id == "burn" ? 1 : 0;
        baled += id == "bale" ? 1 : 0;
      }
      watered += static_cast<int>(known.water.size());
    }
  }
  CHECK(burned > 0);
  CHECK(baled > 0);
  CHECK(watered > 0);
  CHECK(differ_after > runs / 2);
}

TEST_CASE("with nothing known the others are played as they were; with all known, the winter itself",
          "[identity]") {
  const std::size_t winter = 2;
  int burns = 0;
  for (std::uint64_t k = 0; k < 12; ++k) {
    const plan::Decision decision = drawn_decision(k);
    const auto none_known = review::runs_known_until(past().table, decision, winter, 0);
    const auto all_known =
        review::runs_known_until(past().table, decision, winter, past().problem.farm.season.days);
    const plan::YearRun own = dispatch::run(past().table, decision, winter);
    REQUIRE(none_known.size() == winter_count - 1);
    for (std::size_t at = 0; at < none_known.size(); ++at) {
      const std::size_t other = at < winter ? at : at + 1;
      CHECK(none_known[at] == dispatch::run(past().table, decision, other));
      CHECK(all_known[at].fields == own.fields);
      CHECK(all_known[at].work == own.work);
      CHECK(all_known[at].year == none_known[at].year);
      for (const auto& field : none_known[at].fields) burns += field.burned_kg_per_ha > 0.0 ? 1 : 0;
    }
  }
  CHECK(burns > 0);
}

TEST_CASE("an outfit that had not come by the date comes on a day after it", "[identity]") {
  const auto& table = past().table;
  const int on_day = past().problem.farm.season.day(make_date(2026, 9, 25));
  int late_winters = 0, bales = 0;
  for (std::size_t w = 0; w < winter_count; ++w) {
    if (table.hired_from[w][test::baler_of_small_farm] < on_day) continue;
    ++late_winters;
    for (std::uint64_t k = 0; k < 8; ++k)
      for (const plan::YearRun& run : review::runs_known_until(table, drawn_decision(k), w, on_day))
        for (const plan::Work& work : run.work) {
          if (work.implement != static_cast<int>(test::baler_of_small_farm)) continue;
          ++bales;
          CHECK(work.day >= past().problem.farm.season.day(make_date(2026, 10, 10)));
        }
  }
  CHECK(late_winters > 0);
  CHECK(bales > 0);
}

TEST_CASE("what is said and what happened are counted from the runs", "[cross]") {
  const auto in = asked(past().problem);
  const plan::Hindcast h = review::hindcast(in);
  REQUIRE(h.dates.size() == 2);
  REQUIRE(h.decisions.size() == winter_count);
  const auto ready = [](const plan::YearRun& run, int f) {
    return run.fields[static_cast<std::size_t>(f)].status == plan::Status::ready ? 1.0 : 0.0;
  };
  for (const plan::HindcastDate& date : h.dates) {
    CHECK(date.said.size() == 4 * winter_count);  // one of five fields is fallow
    for (const plan::SaidChance& c : date.said) {
      const auto w = static_cast<std::size_t>(c.winter - test::small_first_year);
      double said = 0.0, climatology = 0.0, at_start = 0.0;
      for (const auto& run : review::runs_known_until(past().table, h.decisions[w], w, date.day))
        said += ready(run, c.field);
      for (std::size_t other = 0; other < winter_count; ++other)
        if (other != w) {
          climatology += ready(dispatch::run(past().table, h.decisions[other], other), c.field);
          at_start += ready(dispatch::run(past().table, h.decisions[w], other), c.field);
        }
      CHECK(c.said == said / (winter_count - 1));
      CHECK(c.climatology == climatology / (winter_count - 1));
      CHECK(c.at_start == at_start / (winter_count - 1));
      CHECK(c.happened == (ready(dispatch::run(past().table, h.decisions[w], w), c.field) > 0.5));
    }
  }
}

TEST_CASE("no winter is seen by its own decision, nor its days from the date on by its chances",
          "[identity]") {
  farm::Problem changed = past().problem;
  constexpr std::size_t winter = 4, donor = 1;
  for (int d = first_of_march; d < changed.farm.season.days; ++d) {
    const auto at = static_cast<std::size_t>(d);
    changed.years.years[winter].days[at] = past().problem.years.years[donor].days[at];
    changed.years.years[winter].et0_mm[at] = past().problem.years.years[donor].et0_mm[at];
    changed.years.years[winter].days[at].rain_mm += 6.0;
  }
  std::vector<std::vector<std::size_t>> seen;
  auto in = asked(past().problem), again = asked(changed);
  in.choose = [&](const dispatch::Table&, const std::vector<std::size_t>& others) {
    seen.push_back(others);
    return drawn_decision(5);
  };
  again.choose = [](const dispatch::Table&, const std::vector<std::size_t>&) { return drawn_decision(5); };
  const plan::Hindcast one = review::hindcast(in), other = review::hindcast(again);
  REQUIRE(seen.size() == winter_count);
  for (std::size_t w = 0; w < winter_count; ++w) {
    CHECK(seen[w].size() == winter_count - 1);
    CHECK(std::ranges::find(seen[w], w) == seen[w].end());
  }
  int happened_else = 0;
  for (std::size_t d = 0; d < one.dates.size(); ++d)
    for (std::size_t k = 0; k < one.dates[d].said.size(); ++k) {
      const auto &a = one.dates[d].said[k], &b = other.dates[d].said[k];
      if (a.winter != test::small_first_year + static_cast<int>(winter)) continue;
      CHECK(a.said == b.said);
      CHECK(a.climatology == b.climatology);
      happened_else += a.ready_day != b.ready_day ? 1 : 0;
    }
  CHECK(happened_else > 0);
}

TEST_CASE("a hindcast does not depend on the number of threads", "[identity]") {
  const plan::Hindcast one = review::hindcast(asked(past().problem)),
                       two = review::hindcast(asked(past().problem, 2));
  REQUIRE(one.dates.size() == two.dates.size());
  for (std::size_t d = 0; d < one.dates.size(); ++d) {
    CHECK(one.dates[d].said == two.dates[d].said);
    CHECK(one.dates[d].classes == two.dates[d].classes);
    CHECK(one.dates[d].scores == two.dates[d].scores);
  }
}

TEST_CASE("past winters are those of the record: no forecast, nothing done yet", "[identity]") {
  farm::Problem p = test::open_problem(3);
  const farm::Calendar& season = p.farm.season;
  p.record.first = make_date(test::small_first_year, month_of(season.first), day_of_month(season.first));
  const int days = make_date(test::small_first_year + 3, 9, 1) - p.record.first;
  for (int d = 0; d < days; ++d)
    p.record.days.push_back(p.years.years[0].days[static_cast<std::size_t>(d % 250)]);
  p.years = weather::lay_on_season(p.record, p.farm.site, season.first, season.days, {}, {});
  const weather::Years recorded = p.years;
  p.as_of = season.first + 40;
  p.forecast = weather::Series{.first = p.as_of, .days = std::vector<weather::Day>(7, p.record.days[200])};
  weather::put_forecast_in_front(p.years, *p.forecast, p.farm.site);
  const farm::Problem past = review::past_winters(p);
  CHECK_FALSE(past.forecast.has_value());
  CHECK(past.as_of == season.first);
  REQUIRE(past.years.years.size() == recorded.years.size());
  bool was_changed = false;
  for (std::size_t y = 0; y < recorded.years.size(); ++y) {
    CHECK(past.years.years[y].et0_mm == recorded.years[y].et0_mm);
    was_changed = was_changed || p.years.years[y].et0_mm != recorded.years[y].et0_mm;
  }
  CHECK(was_changed);
}
