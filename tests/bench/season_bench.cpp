// Field-days a second of the daily physics, every process and balance on, and the floor under them: the same
// number of exponentials in a flat loop over the same count of days.

#include <benchmark/benchmark.h>

#include <cmath>
#include <stdexcept>

#include "aftercut/core/parallel.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/season/field_year.hpp"

using namespace aftercut;

namespace {

constexpr int exponentials_per_field_day = 2;  // decay of straw in the ground, cover

const farm::Problem& demo() {
  static const farm::Problem problem = [] {
    const auto read = farm::read(std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields/demo", {});
    if (!read) throw std::runtime_error("the demo farm has issues");
    return read.value();
  }();
  return problem;
}

const std::vector<season::YearDrivers>& drivers() {
  static const std::vector<season::YearDrivers> all = [] {
    std::vector<season::YearDrivers> made;
    for (const auto& year : demo().years.years) made.push_back(season::drivers_of(year, demo().farm));
    return made;
  }();
  return all;
}

/// One field's whole season; boards in from December to February on every third field. Returns what is left.
double season_of(std::size_t i) {
  const farm::Farm& farm = demo().farm;
  season::FieldYear sim{farm, i % farm.fields.size(), drivers()[i % drivers().size()], {}};
  const bool boards = i % 3 == 0;
  const int in = farm.season.day(MonthDay{12, 1}), out = farm.season.day(MonthDay{2, 1});
  while (sim.day() < farm.season.days) {
    if (boards && sim.day() == in) sim.set_boards(150.0);
    if (boards && sim.day() == out) sim.set_boards(0.0);
    sim.end_day(0.0);
  }
  return sim.pools().total();
}

void field_days(benchmark::State& state) {
  const auto fields = static_cast<std::size_t>(state.range(0));
  std::vector<double> left(fields);
  for (auto _ : state) {
    for_each_index(fields, static_cast<int>(state.range(1)), [&](std::size_t i) { left[i] = season_of(i); });
    benchmark::DoNotOptimize(left.data());
  }
  const auto days = static_cast<std::int64_t>(fields) * demo().farm.season.days;
  state.SetItemsProcessed(state.iterations() * days);
  state.counters["bytes_per_field_year"] = sizeof(season::FieldYear);
}

void floor_of_exponentials(benchmark::State& state) {
  const auto fields = static_cast<std::size_t>(state.range(0));
  const int days = demo().farm.season.days;
  for (auto _ : state) {
    double sum = 0.0;
    for (std::size_t i = 0; i < fields; ++i)
      for (int d = 0; d < days; ++d)
        for (int k = 0; k < exponentials_per_field_day; ++k)
          sum += std::exp(-1e-3 * (d + static_cast<double>(i) + 0.1 * k));
    benchmark::DoNotOptimize(sum);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(fields) * days);
}

}  // namespace

BENCHMARK(field_days)
    ->ArgNames({"fields", "threads"})
    ->Args({10, 1})
    ->Args({100, 1})
    ->Args({1000, 1})
    ->Args({10000, 1})
    ->Args({1000, 2})
    ->Args({10000, 2})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK(floor_of_exponentials)->Arg(1000)->Unit(benchmark::kMillisecond)->UseRealTime();
