#include "aftercut/dispatch/progress.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/core/require.hpp"
#include "aftercut/dispatch/conditions.hpp"

namespace aftercut::dispatch {
namespace {

constexpr double hardly_any_ha = 1e-9;

Progress next_step(Progress p, int last_end) {
  ++p.step;
  p.pass = p.passes = 0;
  p.area_done_ha = 0.0;
  p.started = false;
  p.last_end = last_end;
  if (p.waits.area_ha <= 0.0 || p.waits.step != p.step) return p;
  p.pass = p.waits.pass;
  p.area_done_ha = p.waits.area_ha;
  p.started = true;
  p.waits = {};
  return p;
}

/// What was done of the current step, or of the one that waits, takes effect.
BrokenOff break_off(const Table& t, std::size_t field, Progress& p) {
  const bool waits = p.waits.area_ha > 0.0;
  const double ha = waits ? p.waits.area_ha : p.area_done_ha;
  if (ha <= 0.0) return {};
  const method::Step& step = p.recipe->steps[static_cast<std::size_t>(waits ? p.waits.step : p.step)];
  const double share = ha / t.problem->farm.fields[field].area.value();
  const bool bales = operation_of(t, step).effect.bale_share > 0.0;
  if (bales) p.bales_lie = std::max(p.bales_lie, share);
  p.waits = {};
  return {step.operation, share, bales ? std::optional{p.baled_by} : std::nullopt};
}

/// The recipe that takes over and the day, by the what-if or else by the recipe's own rule.
struct TakesOver {
  const method::Recipe* recipe = nullptr;  // null: none
  int day = 0;
};
TakesOver takes_over(const Table& t, const Progress& p) {
  if (p.instead != nullptr && p.instead->method != plan::none)
    return {&t.problem->farm.book.recipes[static_cast<std::size_t>(p.instead->method)], p.instead->from_day};
  if (!p.recipe->fall_back) return {};
  return {&recipe_named(t, p.recipe->fall_back->method), day_of(t, p.recipe->fall_back->start_by)};
}

bool falls_back(const Table& t, const Progress& p, int day) {
  if (p.fell_back || p.clears) return false;
  const TakesOver next = takes_over(t, p);
  return next.recipe != nullptr && day >= next.day && p.step <= key_step(t, *p.recipe);
}

/// The bales of a baling that broke off are hauled, or nobody hauls them: the fall-back's turn.
bool cleared(const Table& t, const Progress& p) {
  return p.clears && (finished(p) || !hauls_bales(current_operation(t, p)));
}

Progress haul_first(Progress p, int step, int day) {
  p.step = step - 1;
  p = next_step(p, day - 1);
  p.clears = true;
  return p;
}

Progress fall_back(const Table& t, const Progress& p, int day) {
  Progress q = begin(takes_over(t, p).recipe, day - 1, p.instead);
  q.fell_back = true;
  q.pass_end = std::max(p.pass_end, p.last_end);
  q.passed_over = p.passed_over;
  return q;
}

/// A fill that can no longer be met.
bool fill_is_over(const Table& t, std::size_t field, const Progress& p, int day) {
  return current_operation(t, p).water == method::Water::fill && day >= fill_over_on(t, field, *p.recipe);
}

/// In the what-if the current step is never done.
bool is_done_without(const Progress& p) {
  return p.instead != nullptr &&
         std::count(p.instead->without.begin(), p.instead->without.end(), current_step(p).operation) > 0;
}

/// The outfit that baled takes the bales off too: the day on which they are gone; nothing for other steps.
std::optional<int> hauled_on(const Table& t, const Progress& p) {
  const farm::Farm& farm = t.problem->farm;
  if (p.baled_by == plan::none || !hauls_bales(current_operation(t, p))) return std::nullopt;
  const auto& hire = farm.implements[static_cast<std::size_t>(p.baled_by)].hire;
  if (!hire || !hire->bales_off_by) return std::nullopt;
  return std::max(farm.season.day(*hire->bales_off_by), p.last_end + 1);
}

bool lag_ran_out(const Progress& p, int day) {
  if (p.step == 0 || !current_step(p).most_lag_days) return false;
  return day >= p.last_end + *current_step(p).most_lag_days + 1;
}

/// The step before is done again over what is left of the field; this one goes on behind it.
Progress step_back(Progress p, int day) {
  if (p.waits.area_ha <= 0.0 && p.area_done_ha > 0.0) p.waits = {p.step, p.pass, p.area_done_ha};
  --p.step;
  p.pass = p.passes = 0;
  p.area_done_ha = p.waits.area_ha;
  p.started = true;  // begun once already: not passed over
  p.last_end = day - 1;
  return p;
}

/// A finishing pass that has not begun waits for moister ground, but only so long after the last rough one.
bool waits_for_moisture(const Table& t, const Progress& p, const season::DayMask& m, int day) {
  return m.too_dry && current_operation(t, p).when.not_too_dry && p.area_done_ha <= 0.0 &&
         day <= p.rough_end + t.problem->farm.most_dry_wait_days;
}

/// Bales that were hauled behind the baler are done of the haul.
Progress take_hauled(const Table& t, Progress p) {
  if (p.hauled_ha <= 0.0 || !hauls_bales(current_operation(t, p))) return p;
  p.area_done_ha = p.hauled_ha;
  p.started = true;
  p.hauled_ha = 0.0;
  return p;
}

/// The first day on which a date alone may move the field on.
int next_event(const Table& t, std::size_t field, const Progress& p) {
  int day = std::numeric_limits<int>::max();
  if (finished(p)) return day;
  const method::Step& s = current_step(p);
  if (!p.fell_back && !p.clears && takes_over(t, p).recipe != nullptr)
    day = std::min(day, takes_over(t, p).day);
  if (is_done_without(p)) day = std::min(day, p.instead->from_day);
  if (s.give_up) day = std::min(day, day_of(t, *s.give_up));
  if (s.most_lag_days) day = std::min(day, p.last_end + *s.most_lag_days + 1);
  if (const auto gone = hauled_on(t, p)) day = std::min(day, *gone + 1);
  if (operation_of(t, s).water == method::Water::fill) day = std::min(day, fill_over_on(t, field, *p.recipe));
  return day;
}

}  // namespace

Progress begin(const method::Recipe* recipe, int day, const plan::Instead* instead) {
  return {.recipe = recipe, .last_end = day, .pass_end = day, .rough_end = day, .instead = instead};
}

Progress begin_on(const Table& t, std::size_t field, int recipe, const plan::Instead* instead) {
  const farm::Farm& farm = t.problem->farm;
  if (recipe == plan::none) return begin(nullptr, farm.season.day(farm.fields[field].harvest), instead);
  const auto r = static_cast<std::size_t>(recipe);
  const Start& s = t.starts[field][r];
  return {.recipe = &farm.book.recipes[r],
          .step = s.step,
          .pass = s.pass,
          .passes = s.passes,
          .area_done_ha = s.area_done_ha,
          .last_end = s.last_end,
          .pass_end = s.pass_end,
          .rough_end = s.rough_end,
          .started = s.started,
          .filled = s.filled,
          .waits = s.waits,
          .baled_by = s.baled_by,
          .bales_lie = s.bales_lie,
          .hauled_ha = s.hauled_ha,
          .instead = instead};
}

bool finished(const Progress& p) {
  return p.recipe == nullptr || p.step >= static_cast<int>(p.recipe->steps.size());
}

bool straw_is_over(const Table& t, const Progress& p) {
  return finished(p) || current_step(p).season == method::Season::spring ||
         current_operation(t, p).water == method::Water::boards_out;
}

double share_asked(const Progress& p) { return p.clears ? p.bales_lie : 1.0; }

const method::Step& current_step(const Progress& p) {
  return p.recipe->steps[static_cast<std::size_t>(p.step)];
}

const method::Operation& current_operation(const Table& t, const Progress& p) {
  return operation_of(t, current_step(p));
}

Settled settle(const Table& t, std::size_t field, Progress p, int day, const season::FieldYear& sim) {
  const farm::Farm& farm = t.problem->farm;
  Settled out;
  if (day < p.quiet_until) {
    out.progress = p;
    return out;
  }
  if (!finished(p) && falls_back(t, p, day)) {
    out.broken_off = break_off(t, field, p);
    const bool bales = p.bales_lie * farm.fields[field].area.value() > p.hauled_ha + hardly_any_ha;
    const auto haul = bales ? hauling_step(t, *p.recipe, p.step) : std::nullopt;
    p = haul ? haul_first(p, *haul, day) : fall_back(t, p, day);
  } else if (!finished(p) && lag_ran_out(p, day)) {
    p = step_back(p, day);
  }
  for (;;) {
    if (cleared(t, p)) p = fall_back(t, p, day);
    if (finished(p)) break;
    p = take_hauled(t, p);
    const method::Step& s = current_step(p);
    const auto gone = hauled_on(t, p);
    if (left_out(t, farm.fields[field], s, sim)) {
      p = next_step(p, p.last_end);
    } else if (is_done_without(p) && day >= p.instead->from_day) {
      p = next_step(p, p.last_end);
    } else if (gone && day > *gone) {
      p = next_step(p, *gone);
    } else if (fill_is_over(t, field, p, day) || (s.give_up && !p.started && day >= day_of(t, *s.give_up))) {
      if (!p.started) ++p.passed_over;
      p = next_step(p, p.last_end);
    } else if (p.passes == 0) {
      p.passes = std::max(passes_of(s, sim.straw_for_passes()), p.area_done_ha > 0.0 ? p.pass + 1 : 0);
      if (p.passes == 0) p = next_step(p, p.last_end);
    } else {
      break;
    }
  }
  p.quiet_until = next_event(t, field, p);
  out.progress = p;
  return out;
}

double draft_factor_of(const soil::Profile& soil, const method::Operation& op, const season::DayMask& m) {
  if (!op.tillage) return 1.0;
  return op.when.not_too_dry && m.too_dry ? 1.0 + soil.input.dry_draft_gain : m.draft_factor;
}

bool is_due(const Table& t, std::size_t field, const Progress& p, int day) {
  const farm::Farm& farm = t.problem->farm;
  const method::Step& s = current_step(p);
  if (day < p.last_end + 1 + s.least_lag_days || day <= p.pass_end) return false;
  return day >= first_day_of(t, field, *p.recipe, s) &&
         day <= farm.season.day(farm.fields[field].next.cut_off);
}

bool can_run(const Table& t, std::size_t field, const Progress& p, int day, const season::FieldYear& sim) {
  if (finished(p) || !is_due(t, field, p, day) || hauled_on(t, p) || is_done_without(p)) return false;
  if (sim.rutted() && kept_off_ruts(current_operation(t, p))) return false;
  if (is_shut(t, field, current_operation(t, p), day)) return false;
  const season::DayMask mask = sim.mask();
  return conditions_hold(t, current_operation(t, p), mask) && !waits_for_moisture(t, p, mask, day);
}

Progress end_pass(const Table& t, Progress p, int day) {
  const method::Operation& op = current_operation(t, p);
  if (op.water != method::Water::none) p.filled = op.water == method::Water::fill;
  if (!op.when.not_too_dry) p.rough_end = day;
  p.quiet_until = 0;
  p.pass_end = day;
  p.area_done_ha = p.waits.area_ha;
  p.started = true;
  if (++p.pass < p.passes) return p;
  return next_step(p, day);
}

void move_boards(season::FieldYear& sim, const method::Recipe& recipe, const method::Operation& op) {
  if (op.water == method::Water::boards_in) sim.set_boards(recipe.water->board_mm);
  if (op.water == method::Water::boards_out) sim.set_boards(0.0);
}

straw::Tool tool_of(const farm::Farm& farm, int implement) {
  if (implement == plan::none) return {};
  const machinery::Implement& i = farm.implements[static_cast<std::size_t>(implement)];
  return {i.depth_cm, i.chop_length_mm};
}

}  // namespace aftercut::dispatch
