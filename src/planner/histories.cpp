#include "histories.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/dispatch/money.hpp"
#include "aftercut/dispatch/progress.hpp"
#include "aftercut/dispatch/waterways.hpp"
#include "standing_for_all.hpp"
#include "step_days.hpp"
#include "step_money.hpp"

namespace aftercut::planner {
namespace {

constexpr int quiet_after_give_up_days = 14;  // later days are taken as open but for their rain
constexpr double fewer_straw = 0.998;         // histories between ours may hold a little less straw
constexpr int moisture_tells_days = 21;       // straw raked earlier is as dry as any that was raked before

/// The deepest of the farm's tools for the work: it buries most.
straw::Tool tool_of(const StepAsked& a) {
  straw::Tool tool;
  for (const auto& i : a.table->problem->farm.implements) {
    if (i.kind != operation_of(a).implement) continue;
    tool.depth_cm = std::max(tool.depth_cm, i.depth_cm);
    if (i.chop_length_mm > 0.0 && (tool.chop_length_mm == 0.0 || i.chop_length_mm < tool.chop_length_mm))
      tool.chop_length_mm = i.chop_length_mm;
  }
  return tool;
}

bool next_by_straw(const StepAsked& a) {
  const method::Step* next = a.step + 1;
  return next != a.recipe->steps.data() + a.recipe->steps.size() && !next->passes.empty();
}

/// Passes of the step behind this one, if this one ended today; 0: not known.
int next_passes(const StepAsked& a, const season::FieldYear& sim) {
  if (!next_by_straw(a)) return 0;
  season::FieldYear after = sim;
  after.apply(operation_of(a), 1.0, tool_of(a));  // chopped straw counts for less
  return dispatch::passes_of(a.step[1], fewer_straw * after.straw_for_passes());
}

/// Passed over on one morning, whatever the step before was done on: the first, a middle and the last of
/// them.
std::vector<History> few_of(std::vector<History> all) {
  if (all.size() <= 3) return all;
  std::vector<History> few;
  for (const std::size_t i : {std::size_t{0}, all.size() / 2, all.size() - 1})
    few.push_back(std::move(all[i]));
  return few;
}

}  // namespace

const method::Operation& operation_of(const StepAsked& a) {
  return dispatch::operation_of(*a.table, *a.step);
}

const farm::Field& field_of(const StepAsked& a) { return a.table->problem->farm.fields[a.field]; }

History begin_history(season::FieldYear sim) {
  const double dried_mm = sim.life().drying_mm;
  return {std::move(sim), false, dried_mm};
}

void live_history_day(History& h, double water_in_mm) {
  const double before = h.sim.water_ledger().sum.evaporation_mm;
  h.sim.end_day(water_in_mm);
  h.dried_mm += h.sim.water_ledger().sum.evaporation_mm - before;
  if (h.sim.water().ponded_mm > season::pond_stops_drying_mm) h.dried_mm = 0.0;
}

Histories::Histories(const dispatch::Table& table, std::size_t field, std::size_t year,
                     const method::Recipe& recipe, WhereFrom where)
    : t_{table},
      field_{field},
      year_{year},
      recipe_{recipe},
      where_{where},
      most_evaporation_(static_cast<std::size_t>(table.problem->farm.season.days), 0.0),
      opened_{table, field} {}

void Histories::end_day(History& h) {
  const auto day = static_cast<std::size_t>(h.sim.day());
  const double before = h.sim.water_ledger().sum.evaporation_mm;
  double let_in = 0.0;
  if (h.filled && t_.water_on[day] && dispatch::wants_top_up(*recipe_.water, h.sim))
    let_in = h.sim.fill_need_mm(recipe_.water->target_mm);
  live_history_day(h, let_in);
  most_evaporation_[day] = std::max(most_evaporation_[day], h.sim.water_ledger().sum.evaporation_mm - before);
  opened_.evening(day, h.sim.water().ponded_mm);
}

void Histories::live_one(const StepAsked& asked, History h, int until, Seen& seen,
                         std::vector<History>& snapshots) {
  const method::Operation& op = operation_of(asked);
  const int from = first_day(asked);
  const std::optional<int> given_up = given_up_on(asked);
  const bool each_day = day_tells(asked);
  std::optional<History> first, last;
  for (; h.sim.day() <= until; end_day(h)) {
    const int day = h.sim.day();
    const auto d = static_cast<std::size_t>(day);
    if (given_up && day == std::max(*given_up, asked.table->as_of_day)) passed_over_.push_back(h);
    if (day < from) continue;
    if (!lets_work(asked, h)) continue;
    seen.open[d] = 1;
    if (could_be_too_dry(h.sim)) seen.dry_already[d] = 1;
    seen.draft[d] = std::min(seen.draft[d], opened_.least_pull(op, h.sim));
    seen.next_passes[d] = std::min(seen.next_passes[d], next_passes(asked, h.sim));
    if (!rain_lets(asked, day)) continue;
    if (op.effect.bale_share > 0.0)
      seen.cost_cents[d] = std::min(seen.cost_cents[d], baling_cents(asked, h.sim));
    if (op.water == method::Water::fill)
      seen.cost_cents[d] = std::min(
          seen.cost_cents[d],
          canal_cents(asked, takes_seepage(asked) ? 0.0 : h.sim.fill_need_mm(recipe_.water->target_mm)));
    if (each_day) snapshots.push_back(h);
    if (!first) first = h;
    last = h;
  }
  if (first) snapshots.push_back(std::move(*first));
  if (last && last->sim.day() > snapshots.back().sim.day()) snapshots.push_back(std::move(*last));
}

History Histories::worked(const StepAsked& asked, History h, int passes) const {
  const method::Operation& op = operation_of(asked);
  for (int k = 0; k < passes; ++k) h.sim.apply(op, 1.0, tool_of(asked));
  dispatch::move_boards(h.sim, recipe_, op);
  if (op.water != method::Water::none) h.filled = op.water == method::Water::fill;
  live_history_day(h, op.water == method::Water::fill ? h.sim.fill_need_mm(recipe_.water->target_mm) : 0.0);
  return h;
}

Opening Histories::opening_of(const StepAsked& asked, const Seen& seen, int quiet_until) const {
  const method::Operation& op = operation_of(asked);
  Opening o{.operation = asked.step->operation,
            .lag = asked.step->least_lag_days,
            .drying_mm = op.when.least_drying_mm.value_or(0.0)};
  const int last = last_day(asked);
  const std::vector<double> rounds =
      op.water == method::Water::boards_in ? rounds_cents(asked) : std::vector<double>{};
  const double least = *std::min_element(seen.cost_cents.begin(), seen.cost_cents.end());
  const auto open = [&](int day) {
    return day >= 0 && day <= last && seen.open[static_cast<std::size_t>(day)] != 0;
  };
  for (int day = first_day(asked); day <= last; ++day) {
    const bool beside = op.when.workable && (open(day - 1) || open(day + 1));
    if (!open(day) && !beside && day <= quiet_until) continue;
    if (!rain_lets(asked, day)) continue;
    const auto d = static_cast<std::size_t>(day);
    o.days.push_back(static_cast<std::uint16_t>(day));
    o.dry_already.push_back(seen.dry_already[d]);
    int passes = seen.next_passes[d];
    if (beside && day > 0) passes = std::min(passes, seen.next_passes[d - 1]);
    if (beside && d + 1 < seen.open.size()) passes = std::min(passes, seen.next_passes[d + 1]);
    o.next_passes.push_back(open(day) || beside ? passes : 0);
    if (op.tillage) {
      double draft = seen.draft[d];
      if (beside && day > 0) draft = std::min(draft, seen.draft[d - 1]);
      if (beside && d + 1 < seen.draft.size()) draft = std::min(draft, seen.draft[d + 1]);
      o.draft.push_back(open(day) || beside ? draft : 1.0);
    }
    if (op.effect.bale_share > 0.0 || op.water == method::Water::fill)
      o.cost_cents.push_back(seen.cost_cents[d] < std::numeric_limits<double>::max() ? seen.cost_cents[d]
                                                                                     : least);
    if (op.water == method::Water::boards_in) o.cost_cents.push_back(rounds[d]);
  }
  return o;
}

PassCount Histories::count(const method::Step& step, const std::vector<History>& from) const {
  if (has_begun(step) && where_.passes_left > 0) return {where_.passes_left, where_.passes_left};
  PassCount n{std::numeric_limits<int>::max(), 0};
  for (const History& h : from) {
    if (dispatch::left_out(t_, t_.problem->farm.fields[field_], step, h.sim)) continue;
    n.fewest = std::min(n.fewest, dispatch::passes_of(step, fewer_straw * h.sim.straw_for_passes()));
    n.most = std::max(n.most, dispatch::passes_of(step, h.sim.straw_for_passes()));
  }
  return n;
}

StepAsked Histories::asked_of(const method::Step& step) const {
  return {&t_, field_, year_, &recipe_, &step, where_.taken_over};
}

bool Histories::has_begun(const method::Step& step) const {
  return where_.begun && &step == &recipe_.steps[where_.first_step];
}

/// Work that has begun is not passed over; a fill ends all the same.
std::optional<int> Histories::given_up(const StepAsked& asked) const {
  if (!has_begun(*asked.step)) return given_up_on(asked);
  if (operation_of(asked).water != method::Water::fill) return std::nullopt;
  return dispatch::fill_over_on(t_, field_, recipe_);
}

std::vector<History> Histories::left_out_of(std::vector<History>& from, const method::Step& step) const {
  std::vector<History> on, out;
  for (History& h : from)
    (dispatch::left_out(t_, t_.problem->farm.fields[field_], step, h.sim) ? out : on).push_back(std::move(h));
  from = std::move(on);
  return out;
}

StepTaken Histories::take(const method::Step& step, std::vector<History> on,
                          const std::vector<Opening>& before) {
  const StepAsked asked = asked_of(step);
  opened_.begin(before);
  const PassCount n = count(step, on);
  StepTaken taken;
  taken.left_out = left_out_of(on, step);
  if (on.empty()) return taken;
  if (n.most == 0) {
    taken.done = std::move(on);
    return taken;
  }
  const std::optional<int> given_up_day = given_up(asked);
  int quiet_until = last_day(asked);
  if (given_up_day) quiet_until = std::min(quiet_until, *given_up_day + quiet_after_give_up_days);
  for (int k = 0; k < std::max(n.fewest, 1); ++k) {
    const bool last_one = k + 1 >= n.fewest;
    Met met = open(asked, k, on, std::max(quiet_until, given_up_day.value_or(0)), quiet_until);
    if (k == 0 && given_up_day && met.passed_over.empty()) met.passed_over = on;  // it is too late already
    if (k == 0) taken.passed_over = few_of(std::move(met.passed_over));
    if (k == 0 && given_up_day) met.opening.begins_before = *given_up_day;
    if (k == 0 && !where_.done.empty())
      met.opening.share = 1.0 - where_.done[static_cast<std::size_t>(&step - recipe_.steps.data())];
    if (n.fewest > 0) taken.passes.push_back(std::move(met.opening));
    on = worked_far_apart(asked, met.snapshots, 1, last_one ? n.most - k : 1);
  }
  if (!taken.passes.empty()) taken.free_from = given_up_day;
  taken.done = std::move(on);
  return taken;
}

std::vector<StepTaken> Histories::take_each(const method::Step& step, std::vector<History> on, int fewest,
                                            int most, const std::vector<Opening>& before) {
  require(!step.give_up && fewest >= 1, "passes are counted apart where the step is worked");
  const StepAsked asked = asked_of(step);
  opened_.begin(before);
  StepTaken so_far;
  so_far.left_out = left_out_of(on, step);
  if (on.empty()) return {static_cast<std::size_t>(most - fewest + 1), so_far};
  std::vector<StepTaken> each;
  for (int k = 0; k < most; ++k) {
    Met met = open(asked, k, on, last_day(asked), last_day(asked));
    so_far.passes.push_back(std::move(met.opening));
    on = worked_far_apart(asked, met.snapshots, 1, 1);
    if (k + 1 < fewest) continue;
    each.push_back(so_far);
    each.back().done = on;
  }
  return each;
}

Histories::Met Histories::open(const StepAsked& asked, int pass, const std::vector<History>& from,
                               int live_until, int quiet_until) {
  const auto days = static_cast<std::size_t>(t_.problem->farm.season.days);
  Seen seen{std::vector<char>(days, 0), std::vector<char>(days, 0),
            std::vector<double>(days, std::numeric_limits<double>::max()),
            std::vector<double>(days, std::numeric_limits<double>::max()),
            std::vector<int>(days, std::numeric_limits<int>::max())};
  Met out;
  passed_over_.clear();
  for (std::size_t k = 0; k < from.size(); ++k) {
    const bool to_the_end = k == 0 || k == from.size() / 2 || k + 1 == from.size();
    const int until = to_the_end ? live_until : std::min(live_until, from[k].sim.day() + moisture_tells_days);
    live_one(asked, from[k], until, seen, out.snapshots);
  }
  out.opening = opening_of(asked, seen, quiet_until);
  if (pass > 0) out.opening.lag = 0;
  opened_.worked(out.opening);
  out.passed_over = std::move(passed_over_);
  return out;
}

std::vector<History> Histories::worked_far_apart(const StepAsked& asked,
                                                 const std::vector<History>& snapshots, int fewest,
                                                 int most) const {
  std::vector<History> out;
  if (snapshots.empty()) return out;
  std::vector<std::size_t> by_day = first_numbers(snapshots.size());
  std::ranges::stable_sort(by_day, {}, [&](std::size_t i) { return snapshots[i].sim.day(); });
  std::vector<int> days;
  for (const std::size_t i : by_day) days.push_back(snapshots[i].sim.day());
  std::vector<std::size_t> picks = standing_for_all(asked, days);
  for (const std::size_t k : picks)
    out.push_back(worked(asked, snapshots[by_day[k]], k == 0 ? most : fewest));
  return out;
}

}  // namespace aftercut::planner
