#include "aftercut/planner/openings.hpp"

#include <algorithm>

#include "aftercut/dispatch/conditions.hpp"
#include "histories.hpp"
#include "leased_water.hpp"

namespace aftercut::planner {
namespace {

constexpr int parts_of_baling = 8;  // how finely baling is told that was done when the fall-back takes over

std::vector<double> summed(const std::vector<double>& daily) {
  std::vector<double> sums{0.0};
  for (const double x : daily) sums.push_back(sums.back() + x);
  return sums;
}

/// Leaves the days for which `stays` holds, told their place.
template <class Stays>
void keep_days(Opening& o, const Stays& stays) {
  std::vector<std::size_t> kept;
  for (std::size_t k = 0; k < o.days.size(); ++k)
    if (stays(k)) kept.push_back(k);
  const auto pick = [&](auto& list) {
    if (list.empty()) return;
    for (std::size_t k = 0; k < kept.size(); ++k) list[k] = list[kept[k]];
    list.resize(kept.size());
  };
  pick(o.days);
  pick(o.dry_already);
  pick(o.draft);
  pick(o.cost_cents);
  pick(o.next_passes);
}

/// The days before `day` only, where a fall-back takes over.
void end_before(Opening& o, int day) {
  keep_days(o, [&](std::size_t k) { return o.days[k] < day; });
}

/// A chain in the making: passes so far and the ways in which the field may have come behind them.
struct Branch {
  std::vector<Opening> passes;
  std::vector<History> histories;
  const method::Operation* before = nullptr;
  const method::Step* step_behind = nullptr;  ///< the one right behind the step of the last pass
  double income_cents = 0.0;
};

/// Work that the later steps hang on: whether it was done or passed over makes two chains.
bool parts_ways(const method::Operation& op) {
  return op.tillage || op.effect.straw.press > 0.0 || op.water == method::Water::boards_in;
}

void append(std::vector<History>& to, const std::vector<History>& more) {
  to.insert(to.end(), more.begin(), more.end());
}

/// The branch behind a step that is done, and beside it the one behind the step passed over.
std::vector<Branch> behind(Branch b, const method::Operation& op, StepTaken taken) {
  if (taken.passes.empty()) {
    b.histories = std::move(taken.done);
    append(b.histories, taken.left_out);
    return {std::move(b)};
  }
  std::vector<Branch> out;
  const bool two = taken.free_from && parts_ways(op);
  if (two && !taken.passed_over.empty()) {
    out.push_back(b);
    out.back().histories = taken.passed_over;
    out.back().income_cents = 0.0;
    append(out.back().histories, taken.left_out);
  }
  if (taken.free_from && !two) {
    taken.passes.front().free_from = taken.free_from;
    append(taken.done, taken.passed_over);
  }
  if (!taken.left_out.empty()) taken.passes.front().free_from = 0;
  for (Opening& o : taken.passes) {
    if (b.before == nullptr || !b.before->tillage) o.drying_mm = 0.0;
    b.before = &op;
    b.passes.push_back(std::move(o));
  }
  b.histories = std::move(taken.done);
  append(b.histories, taken.left_out);
  out.push_back(std::move(b));
  return out;
}

/// How often the step may be worked when its passes hang on the day on which the step before ended: each
/// count is a branch of its own, with the days that allow it. Else one entry, none.
std::vector<std::optional<int>> counts_apart(const Branch& b, const method::Step& step, const PassCount& n) {
  if (step.give_up || n.fewest < 1 || n.most < n.fewest || b.passes.empty() || b.passes.back().free_from ||
      b.passes.back().next_passes.empty() || &step != b.step_behind)
    return {std::nullopt};
  const auto& by_day = b.passes.back().next_passes;
  const int fewest = by_day.empty() ? n.fewest : *std::ranges::min_element(by_day);
  std::vector<std::optional<int>> counts;
  for (int k = std::max(1, std::min(fewest, n.fewest)); k <= n.most; ++k) counts.emplace_back(k);
  return counts;
}

struct Lived {
  std::vector<Chain> chains;
  std::size_t key_passes = 0;  ///< the same in all chains: nothing before the key step parts ways
};

/// The steps of a recipe behind a branch, from a day.
Lived live(const dispatch::Table& t, std::size_t field, std::size_t year, const method::Recipe& recipe,
           Branch from, int begins) {
  Histories histories{t, field, year, recipe};
  std::vector<Branch> branches{std::move(from)};
  Lived out;
  const method::Step* key = recipe.steps.data() + dispatch::key_step(t, recipe);
  for (const method::Step& step : recipe.steps) {
    const method::Operation& op = dispatch::operation_of(t, step);
    std::vector<Branch> next;
    for (const Branch& b : branches)
      for (const auto& passes : counts_apart(b, step, histories.count(step, b.histories))) {
        Branch one = b;
        if (passes)
          keep_days(one.passes.back(),
                    [&](std::size_t k) { return b.passes.back().next_passes[k] <= *passes; });
        StepTaken taken = histories.take(step, b.histories, passes);
        if (op.water == method::Water::boards_in && !taken.passes.empty())
          one.income_cents = most_lease_cents(t, field, recipe, taken.done);
        const bool worked = !taken.passes.empty();
        for (Branch& on : behind(std::move(one), op, std::move(taken))) {
          if (worked) on.step_behind = &step + 1;
          next.push_back(std::move(on));
        }
      }
    branches = std::move(next);
    if (&step == key) out.key_passes = branches.front().passes.size();
  }
  for (Branch& b : branches)
    out.chains.push_back({std::move(b.passes), begins, summed(histories.most_evaporation()), b.income_cents});
  return out;
}

/// The field on the morning on which the fall-back takes over, its own baling done to this share.
History at_fall_back(History h, const method::Operation* baling, double share, int day) {
  while (h.sim.day() < day) live_history_day(h, 0.0);
  if (baling != nullptr && share > 0.0) h.sim.apply(*baling, share);
  return h;
}

/// The operation that the fall-back hangs on, when a part of it can be done: baling. A burn is whole or none.
const method::Operation* baling_of(const dispatch::Table& t, const method::Recipe& recipe) {
  const auto key = static_cast<std::size_t>(dispatch::key_step(t, recipe));
  if (key == recipe.steps.size()) return nullptr;
  const method::Operation& op = dispatch::operation_of(t, recipe.steps[key]);
  return op.burning ? nullptr : &op;
}

/// The branch before the fall-back's first step: bales that lie are hauled, except where the outfit that
/// baled takes them off.
Branch hauled(const dispatch::Table& t, std::size_t field, std::size_t year, const method::Recipe& recipe,
              std::vector<History> from, double share) {
  Branch b;
  b.histories = std::move(from);
  const auto& farm = t.problem->farm;
  const auto step = std::ranges::find_if(recipe.steps, [&](const method::Step& s) {
    return dispatch::operation_of(t, s).implement == "bale_wagon";
  });
  const bool gone = std::ranges::any_of(
      farm.implements, [](const machinery::Implement& i) { return i.hire && i.hire->bales_off_by; });
  if (share <= 0.0 || step == recipe.steps.end() || gone) return b;
  StepTaken taken = Histories{t, field, year, recipe}.take(*step, std::move(b.histories));
  for (Opening& o : taken.passes) {
    o.share = share;
    o.lag = 0;
    b.passes.push_back(std::move(o));
  }
  b.histories = std::move(taken.done);
  return b;
}

std::vector<FallBack> fall_backs_of(const dispatch::Table& t, std::size_t field, std::size_t year,
                                    const method::Recipe& recipe, const History& start, int day) {
  const method::Recipe& other = dispatch::recipe_named(t, recipe.fall_back->method);
  const method::Operation* baling = baling_of(t, recipe);
  std::vector<FallBack> out;
  const auto add = [&](double least_done, double most_done) {
    std::vector<History> from{at_fall_back(start, baling, least_done, day),
                              at_fall_back(start, baling, most_done, day)};
    Lived lived =
        live(t, field, year, other, hauled(t, field, year, recipe, std::move(from), least_done), day);
    for (Chain& chain : lived.chains) out.push_back({std::move(chain), least_done});
  };
  if (baling == nullptr) {
    add(0.0, 0.0);
  } else {
    for (int k = 0; k < parts_of_baling; ++k)
      add(static_cast<double>(k) / parts_of_baling, static_cast<double>(k + 1) / parts_of_baling);
  }
  return out;
}

}  // namespace

Openings openings_of(const dispatch::Table& t, std::size_t field, std::size_t year, std::size_t recipe) {
  const farm::Farm& farm = t.problem->farm;
  const method::Recipe& r = farm.book.recipes[recipe];
  const History start = begin_history(dispatch::first_morning(t, field, year, static_cast<int>(recipe)));
  Openings out;
  Branch first;
  first.histories.push_back(start);
  Lived own = live(t, field, year, r, std::move(first), start.sim.day());
  out.key_passes = own.key_passes;
  if (r.fall_back) {
    const int day = std::max(dispatch::day_of(t, r.fall_back->start_by), start.sim.day());
    for (Chain& chain : own.chains)
      for (std::size_t k = 0; k < own.key_passes; ++k) end_before(chain.passes[k], day);
    if (day < farm.season.days) out.fall_backs = fall_backs_of(t, field, year, r, start, day);
  }
  out.own = std::move(own.chains);
  return out;
}

}  // namespace aftercut::planner
