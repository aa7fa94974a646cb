#include "aftercut/dispatch/spells.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/dispatch/waterways.hpp"

namespace aftercut::dispatch {
namespace {

constexpr int days_at_once = 12;  // that a spell grows by
constexpr double hardly_begun_ha = 1e-9;

bool stays(const Progress& a, const Progress& b) {
  return a.recipe == b.recipe && a.step == b.step && a.passes == b.passes;
}

/// The progress with work on the current step behind it.
Progress begun_on(Progress p, double done_ha) {
  p.started = true;
  p.area_done_ha = done_ha;
  p.quiet_until = 0;
  return p;
}

bool keeps_up(const Progress& p) { return p.filled && p.recipe->water && p.recipe->water->keep_up; }

}  // namespace

Spells::Spells(const Table& table, std::size_t field, std::size_t year, const Likeness& like)
    : table_{&table},
      field_{field},
      year_{year},
      like_{like},
      season_end_{table.problem->farm.season.days},
      first_(table.problem->farm.book.recipes.size() + 1, plan::none),
      first_ends_(first_.size()) {
  require(season_end_ < DayBits::most_days, "a season has fewer days than a spell can hold");
}

int Spells::first(int recipe) {
  int& known = first_[static_cast<std::size_t>(recipe + 1)];
  if (known != plan::none) return known;
  return known = open_spell(first_state(recipe));
}

SpellState Spells::first_state(int recipe) {
  SpellState state{.sim = first_morning(*table_, field_, year_, recipe),
                   .progress = begin_on(*table_, field_, recipe),
                   .setting = table_->setting_of[field_][static_cast<std::size_t>(recipe + 1)],
                   .last = {},
                   .standing = {}};
  const int day = state.sim.day();
  if (recipe == plan::none || day >= season_end_) return state;
  const Settled settled = settle(*table_, field_, state.progress, day, state.sim);
  SpellEnd& end = first_ends_[static_cast<std::size_t>(recipe + 1)];
  end = {.by = SpellEnd::By::dates,
         .day = static_cast<std::int16_t>(day),
         .implement = table_->starts[field_][static_cast<std::size_t>(recipe)].implement};
  break_off(state.sim, settled.broken_off, end);
  state.progress = settled.progress;
  return state;
}

/// What was done of the pass takes effect.
void Spells::break_off(season::FieldYear& sim, const BrokenOff& pass, SpellEnd& end) const {
  if (pass.operation == plan::none) return;
  const farm::Farm& farm = table_->problem->farm;
  const double baled_before = sim.straw_ledger().baled;
  sim.apply(farm.book.operations[static_cast<std::size_t>(pass.operation)], pass.share,
            tool_of(farm, pass.implement.value_or(end.implement)));
  end.baled_kg_per_ha += sim.straw_ledger().baled - baled_before;
  end.baled_share = pass.share;
  end.broken_by = pass.implement;
}

const SpellState& Spells::known(int spell, int until) {
  grow(spell, std::min(until, season_end_));
  return state(spell);
}

int Spells::look_further(int spell, int day, bool begun) {
  const Spell& s = at(spell);
  if (s.finished) return season_end_;
  for (;;) {
    const int until = std::min(s.known_until, s.moves_on[begun]);
    const int next = s.open[begun].next(day, until);
    if (next < until || s.moves_on[begun] < s.known_until) return next;
    if (s.known_until >= season_end_) return season_end_;
    grow(spell, std::min(season_end_, std::max(day, s.known_until) + days_at_once));
  }
}

void Spells::grow(int spell, int until) {
  Spell& s = spells_[static_cast<std::size_t>(spell)];
  if (s.finished || s.known_until >= until) return;
  SpellState& state = states_[static_cast<std::size_t>(spell)];
  if (!state.front) state.front = std::make_unique<season::FieldYear>(state.sim);
  for (; s.known_until < until; ++s.known_until) {
    learn_day(s, state);
    live_day(s, state, *state.front);
  }
  if (s.known_until >= season_end_) state.front.reset();
}

void Spells::learn_day(Spell& s, SpellState& state) {
  const int day = s.known_until;
  const Table& t = *table_;
  const season::FieldYear& sim = *state.front;
  const Progress& p = state.progress;
  const method::Operation& op = current_operation(t, p);
  const bool on = t.water_on[static_cast<std::size_t>(day)] != 0;
  const bool fills = op.water == method::Water::fill;
  if (sim.water().ponded_mm >= standing_water_mm) state.standing.set(day);
  for (const bool begun : {false, true}) {
    int& moves_on = s.moves_on[begun];
    if (day > moves_on) continue;
    const Progress now = begun ? begun_on(p, hardly_begun_ha) : p;
    if (day > s.first_day && day >= now.quiet_until &&
        !stays(settle(t, field_, now, day, sim).progress, now)) {
      moves_on = day;
    } else if ((!fills || on) && can_run(t, field_, now, day, sim)) {
      s.open[begun].set(day);
    }
  }
  if (op.tillage)
    s.draft.push_back(
        draft_factor_of(t.problem->farm.soils[t.problem->farm.fields[field_].soil], op, sim.mask()));
  if (fills) state.need_mm.push_back(sim.fill_need_mm(p.recipe->water->target_mm));
  if (!keeps_up(p)) return;
  const double before = state.topped_mm.empty() ? 0.0 : state.topped_mm.back();
  const bool wants = on && wants_top_up(*p.recipe->water, sim);
  state.topped_mm.push_back(before + (wants ? sim.fill_need_mm(p.recipe->water->target_mm) : 0.0));
}

void Spells::live_day(const Spell& s, const SpellState& state, season::FieldYear& sim) const {
  double water = 0.0;
  if (!state.topped_mm.empty()) {
    const auto k = static_cast<std::size_t>(sim.day() - s.first_day);
    water = state.topped_mm[k] - (k == 0 ? 0.0 : state.topped_mm[k - 1]);
  }
  sim.end_day(water);
}

season::FieldYear Spells::on_morning(int spell, int day) const {
  const SpellState& s = state(spell);
  season::FieldYear sim = s.sim;
  while (sim.day() < day) live_day(at(spell), s, sim);
  return sim;
}

SpellState Spells::behind(int spell, season::FieldYear sim, const Progress& p, const PastEvent& last) const {
  return {.sim = std::move(sim),
          .progress = p,
          .setting = state(spell).setting,
          .before = spell,
          .last = last,
          .standing = {}};
}

const SpellEnd& Spells::add_end(int spell, SpellEnd end, SpellState next) {
  end.to = open_spell(std::move(next));
  return spells_[static_cast<std::size_t>(spell)].ends.emplace_back(end);
}

const SpellEnd& Spells::end_pass(int spell, int day, int implement) {
  for (const SpellEnd& e : at(spell).ends)
    if (e.day == day && e.implement == implement && e.by == SpellEnd::By::pass) return e;
  return add_pass(spell, day, implement);
}

const SpellEnd& Spells::add_pass(int spell, int day, int implement) {
  grow(spell, day + 1);
  season::FieldYear sim = on_morning(spell, day);
  Progress p = state(spell).progress;
  const method::Operation& op = current_operation(*table_, p);
  const PastEvent last{.step = p.step,
                       .pass = p.pass,
                       .day = day,
                       .implement = op.tillage || op.effect.lay_after ? implement : plan::none,
                       .spring = at(spell).spring,
                       .fell_back = p.fell_back};
  const double baled_before = sim.straw_ledger().baled;
  sim.apply(op, 1.0, tool_of(table_->problem->farm, implement));
  SpellEnd end{.day = static_cast<std::int16_t>(day),
               .implement = implement,
               .baled_kg_per_ha = sim.straw_ledger().baled - baled_before};
  move_boards(sim, *p.recipe, op);
  if (op.effect.bale_share > 0.0) p.baled_by = implement;
  live_day(at(spell), state(spell), sim);
  Progress next = dispatch::end_pass(*table_, p, day);
  if (next.area_done_ha > 0.0 && day + 1 < season_end_) {  // a baling that waited may break off next morning
    const Settled settled = settle(*table_, field_, next, day + 1, sim);
    break_off(sim, settled.broken_off, end);
    next = settled.progress;
  }
  return add_end(spell, end, behind(spell, std::move(sim), next, last));
}

const SpellEnd& Spells::let_in(int spell, int day, double mm, bool met) {
  const auto alike = [this](double a, double b) {
    return like_.water_mm > 0.0 ? std::lround(a / like_.water_mm) == std::lround(b / like_.water_mm) : a == b;
  };
  for (const SpellEnd& e : at(spell).ends)
    if (e.day == day && e.by == SpellEnd::By::water && e.met == met && alike(e.amount, mm)) return e;
  return add_water(spell, day, mm, met);
}

const SpellEnd& Spells::add_water(int spell, int day, double mm, bool met) {
  season::FieldYear sim = on_morning(spell, day);
  sim.end_day(mm);
  const SpellState& now = state(spell);
  Progress p = now.progress;
  PastEvent last{.step = p.step, .day = day, .fell_back = p.fell_back, .met = met, .water_mm = mm};
  const bool filling =
      now.last.water_mm > 0.0 && now.last.step == p.step && now.last.fell_back == p.fell_back;
  if (filling) last.water_mm += now.last.water_mm;
  p.started = true;
  p.quiet_until = 0;
  if (met) p = dispatch::end_pass(*table_, p, day);
  SpellState next = behind(spell, std::move(sim), p, last);
  if (filling) next.before = now.before;  // one event, however many days it takes
  return add_end(spell,
                 {.by = SpellEnd::By::water, .met = met, .day = static_cast<std::int16_t>(day), .amount = mm},
                 std::move(next));
}

const SpellEnd& Spells::move_on(int spell, int day, double done_ha, int implement) {
  for (const SpellEnd& e : at(spell).ends)
    if (e.day == day && e.by == SpellEnd::By::dates && e.implement == implement && e.amount == done_ha)
      return e;
  return add_move(spell, day, done_ha, implement);
}

const SpellEnd& Spells::add_move(int spell, int day, double done_ha, int implement) {
  season::FieldYear sim = on_morning(spell, day);
  const SpellState& now = state(spell);
  Progress p = done_ha > 0.0 ? begun_on(now.progress, done_ha) : now.progress;
  if (done_ha > 0.0 && current_operation(*table_, p).effect.bale_share > 0.0) p.baled_by = implement;
  const Settled settled = settle(*table_, field_, p, day, sim);
  SpellEnd end{.by = SpellEnd::By::dates,
               .day = static_cast<std::int16_t>(day),
               .implement = implement,
               .amount = done_ha};
  break_off(sim, settled.broken_off, end);
  const bool waits = settled.progress.waits.area_ha > 0.0 && p.waits.area_ha <= 0.0;
  const bool half_done = waits || settled.broken_off.operation != plan::none;
  PastEvent last = now.last;
  if (half_done)
    last = {.step = p.step,
            .pass = p.pass,
            .day = day,
            .fell_back = p.fell_back,
            .share = waits ? p.area_done_ha / table_->problem->farm.fields[field_].area.value()
                           : settled.broken_off.share};
  SpellState to = behind(spell, std::move(sim), settled.progress, last);
  if (!half_done) to.before = now.before;  // nothing was done to the field
  return add_end(spell, end, std::move(to));
}

int Spells::open_spell(SpellState state) {
  const int day = state.sim.day();
  if (state.progress.recipe != nullptr && day < season_end_)
    state.progress = settle(*table_, field_, state.progress, day, state.sim).progress;
  const auto [at, is_new] = by_past_.try_emplace(key_of(state), static_cast<int>(spells_.size()));
  if (!is_new) return at->second;
  Spell s{.open = {},
          .moves_on = {season_end_, season_end_},
          .first_day = day,
          .known_until = day,
          .finished = finished(state.progress),
          .boards_in = state.sim.boards_are_in(),
          .draft = {},
          .ends = {}};
  if (!s.finished) {
    s.operation = current_step(state.progress).operation;
    s.spring = current_step(state.progress).season == method::Season::spring;
  }
  spells_.push_back(std::move(s));
  states_.push_back(std::move(state));
  return at->second;
}

}  // namespace aftercut::dispatch
