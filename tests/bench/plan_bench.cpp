// Whole-farm evaluations a second: days lived again, quick runs of known spells, and moves judged by a walk.

#include <benchmark/benchmark.h>

#include <numeric>

#include "aftercut/planner/search.hpp"
#include "aftercut/planner/walk.hpp"
#include "bench_farms.hpp"

using namespace aftercut;

namespace {

/// A farm with its table and a plan that a short search found.
struct Ready {
  explicit Ready(std::size_t fields)
      : problem{bench::farm_of(fields)}, table{dispatch::make_table(problem, 1)} {
    years.resize(table.drivers.size());
    std::iota(years.begin(), years.end(), std::size_t{0});
    decision = planner::search({.table = &table, .years = years, .threads = 2, .evaluations = 400}).decision;
  }
  farm::Problem problem;
  dispatch::Table table;
  std::vector<std::size_t> years;
  plan::Decision decision;
};

const Ready& ready(std::int64_t fields) {
  static const Ready small{20}, large{60};
  return fields == 20 ? small : large;
}

void tell(benchmark::State& state, const Ready& r, std::int64_t count, const char* what) {
  state.counters["fields"] = static_cast<double>(r.problem.farm.fields.size());
  state.counters["years"] = static_cast<double>(r.years.size());
  state.counters[what] = benchmark::Counter(static_cast<double>(count), benchmark::Counter::kIsRate);
}

void days_lived_again(benchmark::State& state) {
  const Ready& r = ready(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(planner::costs_of(r.table, {r.decision}, r.years, 1));
  tell(state, r, state.iterations(), "evaluations");
}

void quick_runs(benchmark::State& state) {
  const Ready& r = ready(state.range(0));
  dispatch::QuickRuns quick{r.table, {.before_last = 3, .older = 7, .before_spring = 28, .water_mm = 10.0}};
  for (const std::size_t y : r.years) quick.cents(r.decision, y);  // spells once
  for (auto _ : state)
    for (const std::size_t y : r.years) benchmark::DoNotOptimize(quick.cents(r.decision, y));
  tell(state, r, state.iterations(), "evaluations");
}

void moves_judged(benchmark::State& state) {
  const Ready& r = ready(state.range(0));
  const int moves = static_cast<int>(state.range(1));
  for (auto _ : state)
    benchmark::DoNotOptimize(planner::walk(
        {.table = &r.table, .years = r.years, .start = r.decision, .moves = moves, .draws = Draws{1, 1}}));
  tell(state, r, state.iterations() * moves, "moves");
}

}  // namespace

BENCHMARK(days_lived_again)->Arg(20)->Arg(60)->Unit(benchmark::kMillisecond);
BENCHMARK(quick_runs)->Arg(20)->Arg(60)->Unit(benchmark::kMillisecond);
BENCHMARK(moves_judged)
    ->Args({20, 2000})
    ->Args({20, 8000})
    ->Args({60, 2000})
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1);
