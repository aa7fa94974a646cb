#include "aftercut/planner/search.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <tuple>

#include "aftercut/core/parallel.hpp"
#include "aftercut/core/random.hpp"
#include "aftercut/core/shuffle.hpp"

namespace aftercut::planner {
namespace {

using plan::Decision;

constexpr int moves_tried_at_once = 8;
constexpr std::size_t heat_every = 3;    // the first heat plays every third search year
constexpr std::size_t heat_winners = 2;  // that go on to all of them

class Search {
 public:
  explicit Search(const SearchInput& in)
      : in_{in}, farm_{in.table->problem->farm}, draws_{in.seed, stream_of("search")} {
    for (const auto& reasons : in.table->why_not) {
      auto& possible = possible_.emplace_back();
      for (std::size_t r = 0; r < reasons.size(); ++r)
        if (reasons[r].empty()) possible.push_back(static_cast<int>(r));
    }
  }

  Found run() {
    found_.decision = start();
    found_.cheapest_alone = found_.decision.method;
    for (std::size_t y = 0; y < in_.years.size(); y += heat_every) heat_years_.push_back(in_.years[y]);
    found_.cost = judge({found_.decision}, in_.years).front();
    heat_cost_ = judge({found_.decision}, heat_years_).front();
    while (found_.evaluations < in_.evaluations) {
      const std::int64_t before = found_.cost;
      for (const int f : shuffled_indices(farm_.fields.size(), draws_)) change_method(f);
      for (int k = 0; k < static_cast<int>(farm_.fields.size()); ++k) change_place();
      if (found_.cost == before && ++quiet_rounds_ == 2) break;
    }
    return found_;
  }

 private:
  Decision start() {
    Decision d;
    const std::size_t n = farm_.fields.size();
    d.method.resize(n, plan::none);
    for (std::size_t f = 0; f < n; ++f) d.method[f] = cheapest_alone(f, d);
    d.autumn_order.resize(n);
    std::iota(d.autumn_order.begin(), d.autumn_order.end(), 0);
    d.spring_order = d.autumn_order;
    const auto& fields = farm_.fields;
    std::stable_sort(d.autumn_order.begin(), d.autumn_order.end(), [&](int a, int b) {
      return fields[static_cast<std::size_t>(a)].harvest < fields[static_cast<std::size_t>(b)].harvest;
    });
    std::stable_sort(d.spring_order.begin(), d.spring_order.end(), [&](int a, int b) {
      const auto& x = fields[static_cast<std::size_t>(a)].next;
      const auto& y = fields[static_cast<std::size_t>(b)].next;
      return std::tuple{x.planting, x.order} < std::tuple{y.planting, y.order};
    });
    for (auto* order : {&d.autumn_order, &d.spring_order})
      std::stable_partition(order->begin(), order->end(), [&](int f) {
        return fields[static_cast<std::size_t>(f)].ground.state != farm::GroundState::rutted;
      });
    return d;
  }

  int cheapest_alone(std::size_t f, const Decision& base) {
    if (possible_[f].empty()) return plan::none;
    std::vector<Decision> trials;
    for (const int m : possible_[f]) {
      Decision d = base;
      d.method[f] = m;
      d.autumn_order = d.spring_order = {static_cast<int>(f)};
      trials.push_back(d);
    }
    const auto costs =
        costs_of(*in_.table, trials, in_.years, in_.threads, {.only_field = static_cast<int>(f)});
    return possible_[f]
                    [static_cast<std::size_t>(std::min_element(costs.begin(), costs.end()) - costs.begin())];
  }

  std::vector<std::int64_t> judge(const std::vector<Decision>& trials,
                                  const std::vector<std::size_t>& years) {
    spent_ += trials.size() * years.size();
    found_.evaluations = static_cast<int>(spent_ / in_.years.size());
    if (in_.progress) in_.progress(std::min(1.0, static_cast<double>(found_.evaluations) / in_.evaluations));
    return costs_of(*in_.table, trials, years, in_.threads);
  }

  /// A first heat on some of the years; the few that do best there, if any beats what we have, run all of
  /// them.
  std::vector<Decision> first_heat(const std::vector<Decision>& trials) {
    if (trials.size() <= heat_winners || heat_years_.size() == in_.years.size()) return trials;
    const auto costs = judge(trials, heat_years_);
    std::vector<std::size_t> order(trials.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return costs[a] < costs[b]; });
    std::vector<Decision> winners;
    for (const std::size_t i : order)
      if (winners.size() < heat_winners && costs[i] < heat_cost_) winners.push_back(trials[i]);
    return winners;
  }

  void keep_best(const std::vector<Decision>& trials) {
    if (trials.empty() || found_.evaluations >= in_.evaluations) return;
    const auto winners = first_heat(trials);
    if (winners.empty()) return;
    const auto costs = judge(winners, in_.years);
    const auto best = std::min_element(costs.begin(), costs.end());
    if (*best >= found_.cost) return;
    found_.cost = *best;
    found_.decision = winners[static_cast<std::size_t>(best - costs.begin())];
    heat_cost_ = judge({found_.decision}, heat_years_).front();
    quiet_rounds_ = 0;
  }

  void change_method(int field) {
    const auto f = static_cast<std::size_t>(field);
    std::vector<Decision> trials;
    for (const int m : possible_[f]) {
      if (m == found_.decision.method[f]) continue;
      trials.push_back(found_.decision);
      trials.back().method[f] = m;
    }
    keep_best(trials);
  }

  void change_place() {
    std::vector<Decision> trials;
    const auto n = static_cast<std::uint32_t>(farm_.fields.size());
    for (int k = 0; k < moves_tried_at_once; ++k) {
      Decision d = found_.decision;
      auto& list = draws_.below(2) == 0 ? d.autumn_order : d.spring_order;
      const auto from = draws_.below(n), to = draws_.below(n);
      const int moved = list[from];
      list.erase(list.begin() + from);
      list.insert(list.begin() + to, moved);
      if (from != to) trials.push_back(d);
    }
    keep_best(trials);
  }

  const SearchInput& in_;
  const farm::Farm& farm_;
  Draws draws_;
  std::vector<std::vector<int>> possible_;
  Found found_;
  std::vector<std::size_t> heat_years_;
  std::int64_t heat_cost_ = 0;
  std::size_t spent_ = 0;  // year runs
  int quiet_rounds_ = 0;
};

}  // namespace

std::vector<std::int64_t> costs_of(const dispatch::Table& table, const std::vector<Decision>& decisions,
                                   const std::vector<std::size_t>& years, int threads,
                                   const dispatch::RunOptions& options) {
  std::vector<std::int64_t> single(decisions.size() * years.size());
  for_each_index(single.size(), threads, [&](std::size_t i) {
    single[i] = dispatch::cost_of(
        dispatch::run(table, decisions[i / years.size()], years[i % years.size()], options));
  });
  std::vector<std::int64_t> sums(decisions.size(), 0);
  for (std::size_t i = 0; i < single.size(); ++i) sums[i / years.size()] += single[i];
  return sums;
}

Folds fold(std::size_t years) {
  Folds folds;
  for (std::size_t y = 0; y < years; ++y) (y % 2 == 0 ? folds.search : folds.shown).push_back(y);
  if (years == 1) {
    folds.shown = folds.search;
    folds.in_sample = true;
  }
  return folds;
}

Found search(const SearchInput& input) { return Search{input}.run(); }

}  // namespace aftercut::planner
