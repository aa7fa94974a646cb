// Field-days a second of the daily physics, every process and balance on, side by side and field by field,
// and the floors under them: the same exponentials in a flat loop over the same count of days.

#include <benchmark/benchmark.h>

#include <cmath>

#include "aftercut/core/parallel.hpp"
#include "aftercut/season/field_year.hpp"
#include "bench_farms.hpp"

using namespace aftercut;
using bench::demo;

namespace {

constexpr int exponentials_per_field_day = 2;  // decay of straw in the ground, cover

const std::vector<season::YearDrivers>& drivers() {
  static const std::vector<season::YearDrivers> all = [] {
    std::vector<season::YearDrivers> made;
    for (const auto& year : demo().years.years) made.push_back(season::drivers_of(year, demo().farm));
    return made;
  }();
  return all;
}

/// A few fields' whole season, side by side or one after the other; boards in from December to February on
/// every third field. Puts down what is left.
void season_of(std::span<double> left, std::size_t first, bool side_by_side) {
  const farm::Farm& farm = demo().farm;
  std::vector<season::FieldYear> fields;
  std::vector<season::FieldYear*> all;
  fields.reserve(left.size());
  for (std::size_t k = 0; k < left.size(); ++k) {
    const std::size_t i = first + k;
    all.push_back(&fields.emplace_back(farm, i % farm.fields.size(), drivers()[i % drivers().size()],
                                       method::HarvestSetting{}));
  }
  const auto live = [&](int day) {
    if (side_by_side) return live_until(all, day);
    for (season::FieldYear* f : all)
      while (f->day() < day) f->end_day(0.0);
  };
  const auto boards = [&](double mm) {
    for (std::size_t k = 0; k < left.size(); ++k)
      if ((first + k) % 3 == 0) fields[k].set_boards(mm);
  };
  live(farm.season.day(MonthDay{12, 1}));
  boards(150.0);
  live(farm.season.day(MonthDay{2, 1}));
  boards(0.0);
  live(farm.season.days);
  for (std::size_t k = 0; k < left.size(); ++k) left[k] = fields[k].pools().total();
}

void field_days(benchmark::State& state) {
  const auto fields = static_cast<std::size_t>(state.range(0));
  const bool side_by_side = state.range(2) != 0;
  std::vector<double> left(fields);
  const std::size_t groups = (fields + lane_count - 1) / lane_count;
  for (auto _ : state) {
    for_each_index(groups, static_cast<int>(state.range(1)), [&](std::size_t g) {
      const std::size_t first = g * lane_count;
      season_of(std::span{left}.subspan(first, std::min(lane_count, fields - first)), first, side_by_side);
    });
    benchmark::DoNotOptimize(left.data());
  }
  const auto days = static_cast<std::int64_t>(fields) * demo().farm.season.days;
  state.SetItemsProcessed(state.iterations() * days);
  state.counters["bytes_per_field_year"] = sizeof(season::FieldYear);
}

/// The floor: a flat loop with as many exponentials of the library as a field-day asks of it.
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

/// The same with the exponentials of decay beside them, of a fast and a slow share in four places, worked out
/// side by side as the day does.
void floor_with_decay(benchmark::State& state) {
  const auto fields = static_cast<std::size_t>(state.range(0));
  const int days = demo().farm.season.days;
  constexpr int shares = 2 * static_cast<int>(straw::places);
  for (auto _ : state) {
    Lanes sum = 0.0;
    for (std::size_t i = 0; i < fields; i += lane_count)
      for (int d = 0; d < days; ++d) {
        const Lanes x{Lanes::Pair{1e-4 * d, 2e-4 * d}, Lanes::Pair{1e-5 * d, 1e-7 * static_cast<double>(i)}};
        for (int k = 0; k < exponentials_per_field_day; ++k) sum += exp_of(Lanes{-0.1 * k - 10.0 * x});
        for (int k = 0; k < shares; ++k) sum += straw::lost_share(Lanes{x + 1e-3 * k});
      }
    benchmark::DoNotOptimize(sum);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(fields) * days);
}

}  // namespace

BENCHMARK(field_days)
    ->ArgNames({"fields", "threads", "side_by_side"})
    ->Args({10, 1, 1})
    ->Args({100, 1, 1})
    ->Args({1000, 1, 1})
    ->Args({10000, 1, 1})
    ->Args({1000, 2, 1})
    ->Args({10000, 2, 1})
    ->Args({1000, 1, 0})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK(floor_of_exponentials)->Arg(1000)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(floor_with_decay)->Arg(1000)->Unit(benchmark::kMillisecond)->UseRealTime();
