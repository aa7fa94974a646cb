// Passes of a year: who may go where, what a stretch takes, what a finished pass does.

#include <algorithm>

#include "aftercut/dispatch/money.hpp"
#include "year_play.hpp"

namespace aftercut::dispatch {

void YearPlay::work(std::size_t f, int day, const method::Operation& op) {
  FieldState& s = fields_[f];
  const season::DayMask mask = s.sim.mask();
  const int index = current_step(s.p).operation;
  Wanted wanted{f, index, farm_.fields[f].area.value() * share_asked(s.p) - s.p.area_done_ha, op.burning};
  wanted.draft_factor = draft_factor_of(farm_.soils[farm_.fields[f].soil], op, mask);
  if (hired_.keeps_order()) wanted.not_with = out_of_turn(f, index);
  if (op.water == method::Water::boards_out &&
      !may_draw_down(t_, f, morning_, drained_today_ha_, wanted.area_ha))
    return;
  if (op.burning) {
    if (!open_to_burn(t_, f, year_, day, s.sim.lay(), burned_)) return;
    wanted = with_burn_clock(t_, wanted, day);
  }
  const auto stretch = pool_.find(wanted);
  if (!stretch) return;
  if (op.burning && !t_.burn_days[year_].called[static_cast<std::size_t>(day)]) {
    if (!burned_.waited && pool_.all_idle(*stretch)) wait_for_call(f, day, *stretch);
    return;
  }
  pool_.take(*stretch, f);
  if (op.water == method::Water::boards_out) drained_today_ha_ += stretch->area_ha;
  if (op.when.not_too_dry && mask.too_dry && stretch->finishes) ++s.out.finished_dry;
  if (op.burning) {
    burned_.today_ha += stretch->area_ha;
    burned_.season_ha += stretch->area_ha;
  }
  book(f, day, index, *stretch);
}

void YearPlay::wait_for_call(std::size_t f, int day, const Stretch& wanted) {
  const auto wait = waiting_for_call(t_, wanted, day);
  if (!wait) return;
  FieldState& s = fields_[f];
  burned_.waited = true;
  pool_.take(*wait, f);
  run_.work.push_back(work_of(s.p, static_cast<int>(f), day, *wait));
  run_.work.back().stands_by = true;
  pay(s, current_step(s.p).operation, *wait);
}

plan::CostParts YearPlay::pay(FieldState& s, int operation, const Stretch& x) {
  const plan::CostParts cost = stretch_cost(t_, x, operation);
  s.out.cost = s.out.cost + cost;
  s.out.labour_min += (x.end_min - x.start_min) * people_of(x);
  return cost;
}

void YearPlay::book(std::size_t f, int day, int operation, const Stretch& x) {
  FieldState& s = fields_[f];
  const method::Step& step = current_step(s.p);
  const plan::Work w = work_of(s.p, static_cast<int>(f), day, x);
  run_.work.push_back(w);
  const plan::CostParts cost = pay(s, operation, x);
  s.out.cost = s.out.cost + hired_.call_out(w.implement);
  hired_.note(w.implement, f, cost.hire, x.area_ha);
  s.out.fuel_l += w.fuel_l;
  if (w.implement != plan::none) s.out.machine_min += x.end_min - x.start_min;
  const bool tills = farm_.book.operations[static_cast<std::size_t>(operation)].tillage;
  if (tills && step.season == method::Season::spring && !s.straw_weighed) weigh_straw(s);
  s.p.started = s.worked = true;
  s.p.area_done_ha += x.area_ha;
  s.implement = x.outfit->implement;
  if (farm_.book.operations[static_cast<std::size_t>(operation)].effect.bale_share > 0.0)
    s.p.baled_by = s.implement;
  s.pass_ends = x.finishes;
}

std::vector<int> YearPlay::out_of_turn(std::size_t f, int operation) const {
  const method::Season season = current_step(fields_[f].p).season;
  return hired_.out_of_turn(f, operation, [&](std::size_t g, int implement) {
    return included(g) && waits_for(t_, g, fields_[g].p, fields_[g].pass_ends, implement, season);
  });
}

void YearPlay::take_effect(std::size_t f, int operation, double share) {
  FieldState& s = fields_[f];
  const method::Operation& op = farm_.book.operations[static_cast<std::size_t>(operation)];
  const double baled_before = s.sim.straw_ledger().baled;
  s.sim = s.watch.apply(s.sim, op, share, tool_of(farm_, s.implement));
  const double area = farm_.fields[f].area.value();
  const double kg = (s.sim.straw_ledger().baled - baled_before) * area;
  if (kg <= 0.0) return;
  const plan::CostParts cost = baled_cost(t_, s.implement, kg, area * share);
  s.out.cost = s.out.cost + cost;
  hired_.note(s.implement, f, cost.hire, 0.0);
}

}  // namespace aftercut::dispatch
