// How far a plan may be from the best one: plan, the same methods with each year's lists chosen in hindsight,
// bound. Farms of a size on which machines and people are short; arguments: fields, rounds of prices, changes
// judged by the search.

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <numeric>

#include "aftercut/core/parallel.hpp"
#include "aftercut/planner/bound.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/planner/walk.hpp"
#include "bench_farms.hpp"

using namespace aftercut;

namespace {

constexpr int threads = 2;

struct Sums {
  double plan = 0.0, hindsight = 0.0, before_income = 0.0;  ///< cents, all years
};

double before_income(const plan::CostParts& c) {
  return static_cast<double>(c.out_of_pocket() - c.straw_income - c.lease_income);
}

/// What no method avoids: the spring chain once over each field, by its cheapest outfit in the softest
/// ground.
double common_cents(const dispatch::Table& t, const planner::Resources& r) {
  const farm::Farm& farm = t.problem->farm;
  const planner::DayPrices free(r.minutes.size(), 0.0);
  double sum = 0.0;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const auto& steps = farm.book.recipes.back().steps;
    for (const method::Step& s : steps) {
      if (s.season != method::Season::spring || s.only_if_rutted) continue;
      double least = 0.0;
      for (int day = 0; day < farm.season.days; ++day) {
        const planner::Way w = planner::cheapest_way(t, r, free, f, s.operation, day);
        if (w.possible && (least == 0.0 || w.cents_per_ha < least)) least = w.cents_per_ha;
      }
      sum += least * farm.fields[f].area.value();
    }
  }
  return sum;
}

Sums played(const dispatch::Table& t, const plan::Decision& plan, const std::vector<std::size_t>& years,
            int moves) {
  std::vector<Sums> by_year(years.size());
  for_each_index(years.size(), threads, [&](std::size_t k) {
    const std::size_t y = years[k];
    Sums& s = by_year[k];
    const plan::YearRun run = dispatch::run(t, plan, y);
    for (const auto& f : run.fields) s.before_income += before_income(f.cost);
    s.plan = static_cast<double>(dispatch::cost_of(run));
    const planner::Walked w = planner::walk({.table = &t,
                                             .years = {y},
                                             .start = plan,
                                             .moves = moves,
                                             .orders_only = true,
                                             .draws = Draws{1, static_cast<std::uint64_t>(y)}});
    s.hindsight = std::min(s.plan, static_cast<double>(dispatch::cost_of(dispatch::run(t, w.decision, y))));
  });
  Sums all;
  for (const Sums& s : by_year) {
    all.plan += s.plan;
    all.hindsight += s.hindsight;
    all.before_income += s.before_income;
  }
  return all;
}

/// The years with most rain from the first of February on, when seedbeds are made.
std::vector<std::size_t> wettest(const dispatch::Table& t, std::size_t count) {
  std::vector<std::size_t> years(t.drivers.size());
  std::iota(years.begin(), years.end(), std::size_t{0});
  const auto rain = [&](std::size_t y) {
    const auto& mm = t.drivers[y].rain_mm;
    return std::accumulate(mm.begin() + t.problem->farm.season.day(MonthDay{2, 1}), mm.end(), 0.0);
  };
  std::ranges::stable_sort(years, std::ranges::greater{}, rain);
  years.resize(std::min(count, years.size()));
  std::ranges::sort(years);
  return years;
}

void print_row(const char* which, const dispatch::Table& t, const std::vector<std::size_t>& years,
               std::uint64_t seed, int rounds, int changes) {
  const auto found = planner::search(
      {.table = &t, .years = years, .seed = seed, .threads = threads, .evaluations = changes});
  const Sums s = played(t, found.decision, years, changes / 10);
  const planner::BoundModel model = planner::make_bound_model(t, years, threads);
  const planner::Bound b = planner::lower_bound(
      {.model = &model, .plan_cents = s.hindsight, .rounds = rounds, .threads = threads});
  const auto n = static_cast<double>(years.size());
  const double base = s.before_income - n * common_cents(t, model.resources);
  double area = 0.0;
  for (const auto& f : t.problem->farm.fields) area += f.area.value();
  const auto percent = [&](double cents) { return 100.0 * cents / base; };
  fmt::print("{:<12} {:>4} {:>4} {:>9.0f} {:>9.0f} {:>9.0f} {:>6.1f} {:>8.2f} {:>8.2f} {:>8.2f} {:>8.2f}\n",
             which, t.problem->farm.fields.size(), seed, s.plan / n / 100.0, s.hindsight / n / 100.0,
             b.cents / n / 100.0, 100.0 * (b.cents / b.without_prices - 1.0), percent(s.plan - s.hindsight),
             percent(s.hindsight - b.cents), percent(s.plan - b.cents),
             (s.plan - b.cents) / n / 100.0 / area);
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  const auto fields = static_cast<std::size_t>(argc > 1 ? std::atoi(argv[1]) : 20);
  const int rounds = argc > 2 ? std::atoi(argv[2]) : 100;
  const int changes = argc > 3 ? std::atoi(argv[3]) : 6000;
  const farm::Problem problem = bench::short_of_machines(fields);
  fmt::print("USD a year, out of pocket; shares of the cost before income without what no method avoids\n");
  fmt::print("{:<12} {:>4} {:>4} {:>9} {:>9} {:>9} {:>6} {:>8} {:>8} {:>8} {:>8}\n", "years", "fields",
             "seed", "plan", "hindsight", "bound", "lift %", "to hind", "to bound", "all %", "USD/ha");
  for (const std::uint64_t seed : {1, 2, 3}) {
    const dispatch::Table t = dispatch::make_table(problem, seed);
    std::vector<std::size_t> all(t.drivers.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    print_row("all", t, all, seed, rounds, changes);
    print_row("ten wettest", t, wettest(t, 10), seed, rounds, changes);
  }
}
