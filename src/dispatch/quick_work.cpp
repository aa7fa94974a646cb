// Work and water of a day of a quick run.

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/dispatch/money.hpp"
#include "quick_play.hpp"

namespace aftercut::dispatch {

void QuickRuns::Play::serve(std::size_t f, int day) {
  const Spell& spell = (*spells_)[f]->at(fields_[f].spell);
  const method::Operation& op = farm_.book.operations[static_cast<std::size_t>(spell.operation)];
  if (road_too_soft(t_, f, year_, day, op)) return;
  if (op.water == method::Water::fill) {
    fill(f, day, spell);
  } else {
    work(f, day, spell, op);
  }
}

void QuickRuns::Play::fill(std::size_t f, int day, const Spell& spell) {
  QuickField& s = fields_[f];
  if (!water_reaches(t_, f, morning(day))) return;
  const double m3_per_mm = farm_.fields[f].area.value() * m3_per_mm_ha;
  const double wanted =
      (*spells_)[f]->known(s.spell, day + 1).need_mm[static_cast<std::size_t>(day - spell.first_day)] *
      m3_per_mm;
  const double given = std::min(wanted, flow_left_m3_);
  s.pass_ends = given >= wanted - met_slack_m3;
  if (given <= met_slack_m3) return;
  flow_left_m3_ -= given;
  s.water_mm = given / m3_per_mm;
  pay_water(f, given);
}

void QuickRuns::Play::pay_water(std::size_t f, double m3) {
  QuickField& s = fields_[f];
  s.cents += water_cost(t_, m3, !s.watered, farm_.fields[f].area.value()).out_of_pocket();
  s.watered = true;
}

void QuickRuns::Play::work(std::size_t f, int day, const Spell& spell, const method::Operation& op) {
  QuickField& s = fields_[f];
  const int index = spell.operation;
  Wanted wanted{f, index, s.left_ha, op.burning};
  if (op.tillage) wanted.draft_factor = spell.draft[static_cast<std::size_t>(day - spell.first_day)];
  if (hired_->keeps_order()) wanted.not_with = out_of_turn(f, index);
  if (op.water == method::Water::boards_out &&
      !may_draw_down(t_, f, morning(day), drained_today_ha_, wanted.area_ha))
    return;
  if (op.burning) {
    if (!open_to_burn(t_, f, year_, day, (*spells_)[f]->state(s.spell).sim.lay(), burned_)) return;
    wanted = with_burn_clock(t_, wanted, day);
  }
  const auto stretch = pool_.find(wanted);
  if (!stretch) return;
  if (op.burning && !t_.burn_days[year_].called[static_cast<std::size_t>(day)]) {
    if (!burned_.waited && pool_.all_idle(*stretch)) wait_for_call(f, day, index, *stretch);
    return;
  }
  pool_.take(*stretch, f);
  if (op.water == method::Water::boards_out) drained_today_ha_ += stretch->area_ha;
  if (op.burning) {
    burned_.today_ha += stretch->area_ha;
    burned_.season_ha += stretch->area_ha;
  }
  book(f, index, *stretch);
}

void QuickRuns::Play::wait_for_call(std::size_t f, int day, int operation, const Stretch& wanted) {
  const auto wait = waiting_for_call(t_, wanted, day);
  if (!wait) return;
  burned_.waited = true;
  pool_.take(*wait, f);
  fields_[f].cents += stretch_cost(t_, *wait, operation).out_of_pocket();
}

void QuickRuns::Play::book(std::size_t f, int operation, const Stretch& x) {
  QuickField& s = fields_[f];
  const plan::CostParts cost = stretch_cost(t_, x, operation);
  s.cents += cost.out_of_pocket() + hired_->call_out(x.outfit->implement).out_of_pocket();
  hired_->note(x.outfit->implement, f, cost.hire, x.area_ha);
  s.left_ha -= x.area_ha;
  s.begun = true;
  s.implement = x.outfit->implement;
  s.pass_ends = x.finishes;
}

/// What a pass that took straw off brings and costs.
void QuickRuns::Play::sell(std::size_t f, const SpellEnd& end) {
  if (end.baled_kg_per_ha <= 0.0) return;
  const double area = farm_.fields[f].area.value();
  const int implement = fields_[f].implement;
  const plan::CostParts cost = baled_cost(t_, implement, end.baled_kg_per_ha * area, area * end.baled_share);
  fields_[f].cents += cost.out_of_pocket();
  hired_->note(implement, f, cost.hire, 0.0);
}

const MorningWater& QuickRuns::Play::morning(int day) {
  if (!linked_ || morning_known_) return morning_;
  morning_known_ = true;
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    const Spell& spell = (*spells_)[f]->at(fields_[f].spell);
    const bool there = spell.first_day <= day && !is_ready(f, spell);
    const bool wet = there && (*spells_)[f]->known(fields_[f].spell, day + 1).standing.has(day);
    morning_.pond_mm[f] = wet ? standing_water_mm : 0.0;
    morning_.boards_in[f] = there && spell.boards_in ? 1 : 0;
  }
  return morning_;
}

std::vector<int> QuickRuns::Play::out_of_turn(std::size_t f, int operation) const {
  const auto progress = [this](std::size_t g) -> const Progress& {
    return (*spells_)[g]->state(fields_[g].spell).progress;
  };
  const method::Season season = current_step(progress(f)).season;
  return hired_->out_of_turn(f, operation, [&](std::size_t g, int implement) {
    return waits_for(t_, g, progress(g), fields_[g].pass_ends, implement, season);
  });
}

}  // namespace aftercut::dispatch
