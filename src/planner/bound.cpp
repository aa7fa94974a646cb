#include "aftercut/planner/bound.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/dispatch/money.hpp"
#include "ways_through.hpp"

namespace aftercut::planner {
namespace {

Outcome outcome_of(const dispatch::Table& t, const farm::Field& field) {
  const farm::Farm& farm = t.problem->farm;
  const auto cost = [&](int ready) {
    return static_cast<double>(
        dispatch::outcome_cost(farm, field, dispatch::status_of(farm, field, ready), ready).out_of_pocket());
  };
  Outcome o{{}, cost(plan::none)};
  for (int d = 0; d < farm.season.days; ++d) o.cents.push_back(cost(d));
  return o;
}

/// The cheapest method of each field on the sum over the years; a field without one costs what an unplanted
/// field does.
void choose(const BoundModel& m, Evaluated& e) {
  for (std::size_t f = 0; f < e.by_method.size(); ++f) {
    const auto& costs = e.by_method[f];
    const auto best = std::min_element(costs.begin(), costs.end());
    const bool any = best != costs.end() && *best < infinite;
    e.method.push_back(any ? static_cast<int>(best - costs.begin()) : plan::none);
    e.cents += any ? *best : m.outcomes[f].never_cents * static_cast<double>(m.years.size());
  }
}

}  // namespace

BoundModel make_bound_model(const dispatch::Table& t, std::vector<std::size_t> years, int threads) {
  BoundModel m{&t, resources_of(t), std::move(years), {}, {}, {}, {}};
  const farm::Farm& farm = t.problem->farm;
  const std::size_t n = farm.fields.size(), recipes = farm.book.recipes.size();
  m.openings.assign(n, std::vector(m.years.size(), std::vector<std::optional<Openings>>(recipes)));
  for_each_index(n * m.years.size(), threads, [&](std::size_t i) {
    const std::size_t f = i / m.years.size(), y = i % m.years.size();
    m.openings[f][y] = openings_of_all(t, f, m.years[y]);
  });
  for (std::size_t f = 0; f < n; ++f) {
    auto& most = m.most_ha_a_day.emplace_back();
    for (std::size_t o = 0; o < farm.book.operations.size(); ++o)
      most.push_back(most_ha_a_day(t, m.resources, f, static_cast<int>(o)));
    m.outcomes.push_back(outcome_of(t, farm.fields[f]));
  }
  m.ways.assign(n, std::vector(m.years.size(), std::vector<std::vector<WayThrough>>(recipes)));
  const DayPrices nothing(m.resources.minutes.size(), 0.0);
  for_each_index(n * m.years.size(), threads, [&](std::size_t i) {
    const std::size_t f = i / m.years.size(), y = i % m.years.size();
    FieldPrices without{m, f, nothing};
    for (std::size_t r = 0; r < recipes; ++r)
      if (const auto& o = m.openings[f][y][r]) m.ways[f][y][r] = ways_of(m, without, f, *o);
  });
  return m;
}

BoundModel make_bound_model(const dispatch::Table& table, int threads) {
  return make_bound_model(table, first_numbers(table.drivers.size()), threads);
}

double rounded_down(double cents) {
  constexpr double off = 1.0;
  return std::floor(cents - off);
}

namespace {

/// One field in all years: its methods in the order of their costs without prices.
class FieldYears {
 public:
  FieldYears(const BoundModel& m, std::size_t field, const std::vector<DayPrices>& prices)
      : m_{m}, field_{field} {
    for (const DayPrices& year : prices) prices_.emplace_back(m, field, year);
  }

  /// [recipe] sums over the years, and the ways taken by the cheapest.
  std::vector<double> sums;
  std::vector<Least> cheapest;

  void work_out() {
    const std::size_t recipes = m_.table->problem->farm.book.recipes.size();
    for (std::size_t r = 0; r < recipes; ++r) sums.push_back(without_prices(r));
    std::vector<std::size_t> order = first_numbers(recipes);
    std::ranges::stable_sort(order, {}, [&](std::size_t r) { return sums[r]; });
    double best = infinite;
    for (const std::size_t r : order) {
      if (sums[r] >= best) break;
      std::vector<Least> years;
      sums[r] = 0.0;
      for (std::size_t y = 0; y < prices_.size(); ++y) {
        years.push_back(least_of(m_, prices_[y], field_, *m_.openings[field_][y][r], m_.ways[field_][y][r]));
        sums[r] += years.back().cents;
      }
      if (sums[r] >= best) continue;
      best = sums[r];
      cheapest = std::move(years);
    }
  }

 private:
  [[nodiscard]] double without_prices(std::size_t recipe) const {
    double sum = 0.0;
    for (std::size_t y = 0; y < m_.years.size(); ++y)
      sum += m_.openings[field_][y][recipe] ? m_.ways[field_][y][recipe].front().least_cents : infinite;
    return sum;
  }

  const BoundModel& m_;
  std::size_t field_;
  std::vector<FieldPrices> prices_;
};

}  // namespace

void require_prices(const BoundModel& m, const std::vector<DayPrices>& prices) {
  require(prices.size() == m.years.size(), "every weather year of the bound has its prices");
  for (const DayPrices& year : prices)
    require(std::all_of(year.begin(), year.end(), [](double price) { return price >= 0.0; }),
            "a price of the bound is not negative");
}

Evaluated evaluate(const BoundModel& m, const std::vector<DayPrices>& prices, int threads, bool with_use) {
  const std::size_t n = m.openings.size(), years = m.years.size();
  require_prices(m, prices);
  std::vector<std::vector<Least>> cheapest(n);
  Evaluated e;
  e.by_method.resize(n);
  for_each_index(n, threads, [&](std::size_t f) {
    FieldYears field{m, f, prices};
    field.work_out();
    e.by_method[f] = std::move(field.sums);
    cheapest[f] = std::move(field.cheapest);
  });
  choose(m, e);
  for (const DayPrices& p : prices) e.cents -= paid_back(m.resources, p);
  if (!with_use) return e;
  e.minutes_used.assign(years, DayPrices(m.resources.minutes.size(), 0.0));
  for_each_index(years, threads, [&](std::size_t y) {
    for (std::size_t f = 0; f < n; ++f) {
      if (cheapest[f].empty()) continue;
      FieldPrices field{m, f, prices[y]};
      add_use_of(m, field, f, cheapest[f][y], e.minutes_used[y]);
    }
  });
  return e;
}

}  // namespace aftercut::planner
