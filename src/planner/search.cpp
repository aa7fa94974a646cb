#include "aftercut/planner/search.hpp"

#include <algorithm>
#include <mutex>
#include <numeric>
#include <tuple>

#include "aftercut/core/parallel.hpp"
#include "aftercut/core/random.hpp"
#include "aftercut/planner/walk.hpp"

namespace aftercut::planner {
namespace {

using plan::Decision;

constexpr std::size_t walks = 2;  // from the same start, with draws of their own

class Search {
 public:
  explicit Search(const SearchInput& in)
      : in_{in},
        farm_{in.table->problem->farm},
        possible_{dispatch::possible_recipes(*in.table)},
        least_ready_{least_ready(farm_, in.years.size())} {}

  Found run() {
    std::vector<Decision> ends{in_.start ? *in_.start : start()};
    Found found;
    found.cheapest_alone = ends.front().method;
    for (const Walked& w : walk_all(ends.front())) {
      ends.push_back(w.decision);
      found.year_runs += w.runs;
    }
    const auto merits = merits_of(*in_.table, ends, in_.years, in_.threads, least_ready_);
    const auto best = std::min_element(merits.begin(), merits.end());
    found.cost = static_cast<std::int64_t>(best->cents);
    found.short_ha_years = best->short_ha_years;
    found.decision = ends[static_cast<std::size_t>(best - merits.begin())];
    found.evaluations = in_.evaluations;
    return found;
  }

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

 private:
  int cheapest_alone(std::size_t f, const Decision& base) {
    if (possible_[f].empty()) return plan::none;
    std::vector<Decision> trials;
    for (const int m : possible_[f]) {
      Decision d = base;
      d.method[f] = m;
      d.autumn_order = d.spring_order = {static_cast<int>(f)};
      trials.push_back(d);
    }
    LeastReady mine(least_ready_.size(), 0);  // the other fields are left out and never ready
    if (!mine.empty()) mine[f] = least_ready_[f];
    const auto merits =
        merits_of(*in_.table, trials, in_.years, in_.threads, mine, {.only_field = static_cast<int>(f)});
    const auto best = std::min_element(merits.begin(), merits.end());
    return possible_[f][static_cast<std::size_t>(best - merits.begin())];
  }

  /// Walks side by side; each is a value of its input, so the threads do not matter.
  std::vector<Walked> walk_all(const Decision& from) {
    std::vector<Walked> out(walks);
    std::mutex telling;
    std::vector<double> done(walks, 0.0);
    for_each_index(walks, in_.threads, [&](std::size_t k) {
      const auto tell = [&, k](double share) {
        const std::scoped_lock lock{telling};
        done[k] = share;
        if (in_.progress) in_.progress(std::accumulate(done.begin(), done.end(), 0.0) / walks);
      };
      out[k] = walk({.table = in_.table,
                     .years = in_.years,
                     .start = from,
                     .moves = in_.evaluations / static_cast<int>(walks),
                     .heat = in_.heat,
                     .least_ready = least_ready_,
                     .draws = Draws{in_.seed, stream_of("search"), k},
                     .progress = tell});
    });
    return out;
  }

  const SearchInput& in_;
  const farm::Farm& farm_;
  std::vector<std::vector<int>> possible_;
  LeastReady least_ready_;
};

}  // namespace

std::vector<Merit> merits_of(const dispatch::Table& table, const std::vector<Decision>& decisions,
                             const std::vector<std::size_t>& years, int threads, const LeastReady& least,
                             const dispatch::RunOptions& options) {
  struct Played {
    std::int64_t cents = 0;
    std::vector<char> in_time;  // [field]
  };
  std::vector<Played> single(decisions.size() * years.size());
  for_each_index(single.size(), threads, [&](std::size_t i) {
    const auto run = dispatch::run(table, decisions[i / years.size()], years[i % years.size()], options);
    single[i].cents = dispatch::cost_of(run);
    for (const auto& f : run.fields) single[i].in_time.push_back(f.status == plan::Status::ready ? 1 : 0);
  });
  std::vector<Merit> merits;
  for (std::size_t d = 0; d < decisions.size(); ++d) {
    std::int64_t cents = 0;
    std::vector<int> ready(least.size(), 0);
    for (std::size_t y = 0; y < years.size(); ++y) {
      const Played& p = single[d * years.size() + y];
      cents += p.cents;
      for (std::size_t f = 0; f < ready.size(); ++f) ready[f] += p.in_time[f];
    }
    merits.push_back({short_ha_years(table.problem->farm, least, ready), static_cast<double>(cents)});
  }
  return merits;
}

std::vector<std::int64_t> costs_of(const dispatch::Table& table, const std::vector<Decision>& decisions,
                                   const std::vector<std::size_t>& years, int threads,
                                   const dispatch::RunOptions& options) {
  std::vector<std::int64_t> sums;
  for (const Merit& m : merits_of(table, decisions, years, threads, {}, options))
    sums.push_back(static_cast<std::int64_t>(m.cents));
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

std::vector<int> cheapest_alone(const SearchInput& input) { return Search{input}.start().method; }

}  // namespace aftercut::planner
