#include "branches.hpp"

#include <algorithm>
#include <span>
#include <utility>

#include "aftercut/dispatch/conditions.hpp"
#include "leased_water.hpp"

namespace aftercut::planner {
namespace {

std::vector<double> summed(const std::vector<double>& daily) {
  std::vector<double> sums{0.0};
  for (const double x : daily) sums.push_back(sums.back() + x);
  return sums;
}

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
    if (op.water == method::Water::boards_in) out.back().income_cents = 0.0;
    append(out.back().histories, taken.left_out);
  }
  if (taken.free_from && !two) {
    taken.passes.front().free_from = taken.free_from;
    append(taken.done, taken.passed_over);
  }
  if (!taken.left_out.empty()) taken.passes.front().free_from = 0;
  for (Opening& o : taken.passes) {
    if (b.before == nullptr || !b.before->tillage) o.drying_mm = 0.0;
    if (b.before == nullptr) o.lag = 0;  // what came before may have ended long ago
    b.before = &op;
    b.passes.push_back(std::move(o));
  }
  b.histories = std::move(taken.done);
  append(b.histories, taken.left_out);
  out.push_back(std::move(b));
  return out;
}

/// The counts of passes that are told apart, rising; most 0: none are.
PassCount counts_apart(const Branch& b, const method::Step& step, const PassCount& n) {
  if (step.give_up || n.fewest < 1 || n.most < n.fewest || b.passes.empty() || b.passes.back().free_from ||
      b.passes.back().next_passes.empty() || &step != b.step_behind)
    return {};
  const int fewest = *std::ranges::min_element(b.passes.back().next_passes);
  return {std::max(1, std::min(fewest, n.fewest)), n.most};
}

/// [days] the pass may end then for the next step to take no more passes than so many. It may begin earlier:
/// straw goes on rotting.
std::vector<char> ends_with(const Opening& o, int passes) {
  std::vector<char> may_end;
  for (const int after : o.next_passes) may_end.push_back(after <= passes ? 1 : 0);
  return may_end;
}

/// A branch one step on. How often the step is worked may hang on the day on which the step before ended:
/// then each count is a branch of its own, with the ends that allow it.
std::vector<Branch> one_step(const dispatch::Table& t, std::size_t field, const method::Recipe& recipe,
                             const method::Step& step, Histories& histories, Branch b) {
  const method::Operation& op = dispatch::operation_of(t, step);
  std::vector<History> from = std::exchange(b.histories, {});
  const PassCount apart = counts_apart(b, step, histories.count(step, from));
  std::vector<StepTaken> each;
  if (apart.most > 0)
    each = histories.take_each(step, std::move(from), apart.fewest, apart.most, b.passes);
  else
    each.push_back(histories.take(step, std::move(from), b.passes));
  std::vector<Branch> next;
  for (std::size_t k = 0; k < each.size(); ++k) {
    StepTaken& taken = each[k];
    Branch one = b;
    if (apart.most > 0)
      one.passes.back().may_end = ends_with(b.passes.back(), apart.fewest + static_cast<int>(k));
    if (op.water == method::Water::boards_in && !taken.passes.empty())
      one.income_cents = most_lease_cents(t, field, recipe, taken.done);
    const bool worked = !taken.passes.empty();
    for (Branch& on : behind(std::move(one), op, std::move(taken))) {
      if (worked) on.step_behind = &step + 1;
      next.push_back(std::move(on));
    }
  }
  return next;
}

std::vector<Branch> all_one_step(const dispatch::Table& t, std::size_t field, const method::Recipe& recipe,
                                 const method::Step& step, Histories& histories,
                                 std::vector<Branch> branches) {
  std::vector<Branch> next;
  for (Branch& b : branches)
    for (Branch& on : one_step(t, field, recipe, step, histories, std::move(b)))
      next.push_back(std::move(on));
  return next;
}

}  // namespace

Lived live(const dispatch::Table& t, std::size_t field, std::size_t year, const method::Recipe& recipe,
           Branch from, int begins, const WhereFrom& where) {
  Histories histories{t, field, year, recipe, where};
  std::vector<Branch> branches{std::move(from)};
  Lived out;
  const method::Step* key = recipe.steps.data() + dispatch::key_step(t, recipe);
  for (const method::Step& step : std::span{recipe.steps}.subspan(where.first_step)) {
    branches = all_one_step(t, field, recipe, step, histories, std::move(branches));
    if (&step == key) out.key_passes = branches.front().passes.size();
  }
  for (Branch& b : branches)
    out.chains.push_back({std::move(b.passes), begins, summed(histories.most_evaporation()), b.income_cents});
  return out;
}

}  // namespace aftercut::planner
