// When each pass of the plan comes: days that did occur, counted over all years.
#include "aftercut/scenario/jobs.hpp"

#include "aftercut/core/require.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

struct MarksRow {
  const char* what;
  std::vector<int> days;
  plan::DayMarks expected;
};

plan::Work work(int field, int step, int pass, int operation, int day) {
  return {.field = field, .step = step, .pass = pass, .operation = operation, .day = day};
}

plan::YearRun run(int year, std::vector<plan::Work> all) {
  return {.year = year,
          .work = std::move(all),
          .water = {},
          .fields = {},
          .bills = {},
          .workable = {},
          .waits = {}};
}

}  // namespace

TEST_CASE("marks of days are days that did occur", "[derived]") {
  // Order statistic at ceil(p n): of ten the 1st, 5th and 9th; of eleven the 2nd, 6th and 10th.
  const std::vector<MarksRow> rows{
      {"one", {42}, {42, 42, 42}},
      {"two", {50, 40}, {40, 40, 50}},
      {"three", {9, 7, 8}, {7, 8, 9}},
      {"ten, out of order", {10, 9, 8, 7, 6, 5, 4, 3, 2, 1}, {1, 5, 9}},
      {"eleven", {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}, {2, 6, 10}},
      {"alike", {5, 5, 5, 5}, {5, 5, 5}},
      {"twenty with a late one", {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2, 2, 2, 99}, {1, 1, 2}}};
  for (const MarksRow& row : rows) {
    const plan::DayMarks found = scenario::day_marks(row.days);
    INFO(row.what << ": " << found.p10 << " " << found.p50 << " " << found.p90);
    CHECK(found == row.expected);
  }
  CHECK_THROWS_AS(scenario::day_marks({}), InternalError);
}

TEST_CASE("jobs gather first and last days of a pass over the years", "[derived]") {
  plan::Work waited = work(0, 0, 0, 3, 8);
  waited.stands_by = true;
  plan::Work instead = work(0, 0, 0, 4, 60);
  instead.fell_back = true;
  const std::vector<plan::YearRun> runs{
      run(2001, {work(0, 0, 0, 3, 10), work(0, 0, 0, 3, 12), work(0, 1, 0, 4, 20), work(1, 0, 0, 3, 11)}),
      run(2002, {waited, work(0, 0, 0, 3, 14), work(0, 1, 0, 4, 15), work(0, 1, 1, 4, 18)}),
      run(2003, {waited, instead})};
  const auto jobs = scenario::jobs_of(runs, 3);
  REQUIRE(jobs.size() == 3);
  const std::vector<plan::Job> first{{3, 0, 0, false, 2, {10, 10, 14}, {12, 12, 14}},
                                     {4, 1, 0, false, 2, {15, 15, 20}, {15, 15, 20}},
                                     {4, 1, 1, false, 1, {18, 18, 18}, {18, 18, 18}},
                                     {4, 0, 0, true, 1, {60, 60, 60}, {60, 60, 60}}};
  CHECK(jobs[0] == first);
  CHECK(jobs[1] == std::vector<plan::Job>{{3, 0, 0, false, 1, {11, 11, 11}, {11, 11, 11}}});
  CHECK(jobs[2].empty());
}

TEST_CASE("a plan tells its jobs and the end of the forecast", "[identity]") {
  farm::Problem p = test::small_problem(4);
  const scenario::SearchOptions options{.seed = 5, .threads = 1, .evaluations = 20, .progress = {}};
  const plan::PlannedYears without = scenario::make_plan(p, options);
  CHECK_FALSE(without.plan.forecast_until);
  std::size_t told = 0;
  for (const auto& field : without.plan.fields) told += field.jobs.size();
  CHECK(told > 0);
  for (std::size_t f = 0; f < without.plan.fields.size(); ++f)
    CHECK(without.plan.fields[f].jobs == scenario::jobs_of(without.runs, without.plan.fields.size())[f]);
  p.forecast = weather::Series{};
  p.forecast->first = p.as_of;
  for (int d = 0; d < 5; ++d) p.forecast->days.push_back(p.years.years[0].days[0]);
  CHECK(scenario::make_plan(p, options).plan.forecast_until == p.as_of + 4);
}
