#include "enumerated.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <numeric>

#include "aftercut/core/numbers.hpp"
#include "aftercut/planner/search.hpp"

namespace aftercut::test {
namespace {

std::vector<std::vector<int>> every_list(std::size_t fields) {
  std::vector<int> list(fields);
  std::iota(list.begin(), list.end(), 0);
  std::vector<std::vector<int>> out;
  do out.push_back(list);
  while (std::next_permutation(list.begin(), list.end()));
  return out;
}

std::vector<std::vector<int>> every_choice(const std::vector<std::vector<int>>& possible) {
  std::vector<std::vector<int>> out{{}};
  for (const auto& field : possible) {
    std::vector<std::vector<int>> longer;
    for (const auto& before : out)
      for (const int m : field) {
        longer.push_back(before);
        longer.back().push_back(m);
      }
    out = std::move(longer);
  }
  return out;
}

planner::Found searched(const dispatch::Table& table, int evaluations) {
  return planner::search({.table = &table,
                          .years = first_numbers(table.drivers.size()),
                          .seed = 1,
                          .threads = 1,
                          .evaluations = evaluations,
                          .progress = {}});
}

}  // namespace

Enumerated every_plan(const dispatch::Table& table) {
  const auto possible = dispatch::possible_recipes(table);
  const auto lists = every_list(possible.size());
  Enumerated out;
  out.plan = out.own_lists = std::numeric_limits<std::int64_t>::max();
  std::vector<std::int64_t> least_of_year(table.drivers.size(), std::numeric_limits<std::int64_t>::max());
  for (const auto& methods : every_choice(possible)) {
    std::vector<plan::Decision> decisions;
    for (const auto& autumn : lists)
      for (const auto& spring : lists) decisions.push_back({methods, autumn, spring});
    out.decisions += decisions.size();
    std::vector<std::int64_t> sums(decisions.size(), 0);
    std::int64_t own_lists = 0;
    for (std::size_t y = 0; y < table.drivers.size(); ++y) {
      const auto costs = planner::costs_of(table, decisions, {y}, 1);
      const std::int64_t least = *std::min_element(costs.begin(), costs.end());
      own_lists += least;
      least_of_year[y] = std::min(least_of_year[y], least);
      for (std::size_t i = 0; i < costs.size(); ++i) sums[i] += costs[i];
    }
    out.own_lists = std::min(out.own_lists, own_lists);
    const auto best = std::min_element(sums.begin(), sums.end());
    if (*best >= out.plan) continue;
    out.plan = *best;
    out.decision = decisions[static_cast<std::size_t>(best - sums.begin())];
  }
  out.years_on_their_own = std::accumulate(least_of_year.begin(), least_of_year.end(), std::int64_t{0});
  return out;
}

planner::Merit best_merit(const dispatch::Table& table) {
  const auto possible = dispatch::possible_recipes(table);
  const auto lists = every_list(possible.size());
  const std::vector<std::size_t> years = first_numbers(table.drivers.size());
  const auto least = planner::least_ready(table.problem->farm, years.size());
  planner::Merit best{std::numeric_limits<double>::max(), 0.0};
  for (const auto& methods : every_choice(possible)) {
    std::vector<plan::Decision> decisions;
    for (const auto& autumn : lists)
      for (const auto& spring : lists) decisions.push_back({methods, autumn, spring});
    const auto merits = planner::merits_of(table, decisions, years, 1, least);
    best = std::min(best, *std::min_element(merits.begin(), merits.end()));
  }
  return best;
}

Wished searched_with_wishes(const TinyShape& shape, std::uint64_t from, std::uint64_t to, int evaluations) {
  Wished out;
  for (std::uint64_t k = from; k < to; ++k) {
    const farm::Problem p = tiny_problem(k, shape);
    const dispatch::Table t = dispatch::make_table(p, 1);
    const planner::Merit best = best_merit(t);
    const planner::Found found = searched(t, evaluations);
    const planner::Merit mine{found.short_ha_years, static_cast<double>(found.cost)};
    ++out.count;
    out.any_short += best.short_ha_years > 0.0 ? 1 : 0;
    out.wrong += mine < best ? 1 : 0;
    if (mine.short_ha_years > best.short_ha_years) continue;
    ++out.as_little_short;
    out.most_above = std::max(out.most_above, (mine.cents - best.cents) / std::abs(best.cents));
  }
  return out;
}

std::string Above::words() const {
  return "searched plans above the best of all: mean " + std::to_string(100.0 * mean) + " %, most " +
         std::to_string(100.0 * most) + " %, " + std::to_string(same) + " of " + std::to_string(count) +
         " cost the same";
}

Above searched_above(const TinyShape& shape, std::uint64_t from, std::uint64_t to, int evaluations) {
  Above above;
  for (std::uint64_t k = from; k < to; ++k) {
    const farm::Problem p = tiny_problem(k, shape);
    const dispatch::Table t = dispatch::make_table(p, 1);
    const Enumerated all = every_plan(t);
    const planner::Found found = searched(t, evaluations);
    if (found.cost < all.plan || all.plan < all.own_lists || all.own_lists < all.years_on_their_own)
      ++above.wrong;
    const double by = static_cast<double>(found.cost - all.plan) / static_cast<double>(std::abs(all.plan));
    above.mean += by / static_cast<double>(to - from);
    above.most = std::max(above.most, by);
    above.same += found.cost == all.plan ? 1 : 0;
    ++above.count;
  }
  return above;
}

}  // namespace aftercut::test
