// The last safe start of every method, and what a week of waiting costs.

#include "aftercut/scenario/waiting.hpp"

#include "aftercut/readiness/readiness.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

struct Setting {
  farm::Problem problem = test::small_problem(8);
  dispatch::Table table;
  plan::Decision decision;
  std::vector<std::size_t> shown{1, 3, 5, 7};

  Setting() {
    problem.farm.target.wanted_chance = 0.75;
    table = dispatch::make_table(problem, 2);
    decision = test::decide(problem.farm, test::mixed_methods);
  }
  [[nodiscard]] scenario::OutcomeInput input() const {
    return {.table = &table, .decision = &decision, .shown = shown, .threads = 2, .progress = {}};
  }
};
const Setting& setting() {
  static const Setting made;
  return made;
}

/// The chance of a ready seedbed with the method on the field and its first step held until the day.
double chance(std::size_t field, int method, int start_day) {
  const Setting& s = setting();
  plan::Decision d = s.decision;
  d.method[field] = method;
  std::vector<plan::FieldRun> runs;
  for (const std::size_t y : s.shown)
    runs.push_back(
        dispatch::run(s.table, d, y,
                      {.start_after_field = static_cast<int>(field), .start_after_day = start_day - 1})
            .fields[field]);
  return readiness::of_field(s.problem.farm.fields[field], runs).chance;
}

}  // namespace

TEST_CASE("the last safe start keeps the wanted chance, and a week later does not", "[cross]") {
  const Setting& s = setting();
  const auto tried = scenario::outcomes(s.input());
  const auto starts = scenario::last_safe_starts(s.input(), tried.methods);
  int ends_early = 0, there = 0;
  for (std::size_t f = 0; f < starts.size(); ++f) {
    const int first = scenario::first_possible_day(s.table, f);
    const int planting = s.problem.farm.season.day(s.problem.farm.fields[f].next.planting);
    for (std::size_t r = 0; r < starts[f].size(); ++r) {
      const auto& recipe = s.problem.farm.book.recipes[r];
      INFO(s.problem.farm.fields[f].id.value << " " << recipe.id.value);
      if (f == 3) CHECK_FALSE(starts[f][r]);  // fallow: nothing is due
      if (!starts[f][r]) continue;
      ++there;
      CHECK(*starts[f][r] >= first);
      CHECK(chance(f, static_cast<int>(r), first + (*starts[f][r] - first) / 7 * 7) >= 0.75);
      if (recipe.fall_back) {
        CHECK(*starts[f][r] < s.problem.farm.season.day(recipe.fall_back->start_by));
      } else if (*starts[f][r] + 7 <= planting) {
        CHECK(chance(f, static_cast<int>(r), *starts[f][r] + 7) < 0.75);
        ++ends_early;
      }
    }
  }
  CHECK(there >= 10);
  CHECK(ends_early >= 5);
}

TEST_CASE("a method that misses the wanted chance at once has no safe start", "[identity]") {
  const Setting& s = setting();
  auto tried = scenario::outcomes(s.input());
  for (auto& m : tried.methods[0]) m.chance_ready = 0.5;
  const auto starts = scenario::last_safe_starts(s.input(), tried.methods);
  for (const auto& start : starts[0]) CHECK_FALSE(start);
}

TEST_CASE("a week of waiting costs what the plan costs more with the field held back", "[cross]") {
  const Setting& s = setting();
  const auto weeks = scenario::cost_of_a_week(s.input());
  REQUIRE(weeks.size() == s.decision.method.size());
  const std::size_t years = s.table.drivers.size();
  for (std::size_t f = 0; f < weeks.size(); ++f) {
    double more = 0.0;
    for (std::size_t y = 0; y < years; ++y)
      more += static_cast<double>(dispatch::cost_of(dispatch::run(
                                      s.table, s.decision, y,
                                      {.start_after_field = static_cast<int>(f),
                                       .start_after_day = scenario::first_possible_day(s.table, f) + 6})) -
                                  dispatch::cost_of(dispatch::run(s.table, s.decision, y)));
    REQUIRE(weeks[f]);
    CHECK(static_cast<double>(*weeks[f]) == Approx(more / static_cast<double>(years)).margin(0.51));
  }
  CHECK(*weeks[3] == 0);  // left standing and fallow: nothing to wait for
}
