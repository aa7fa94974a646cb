#include "work_done.hpp"

#include <algorithm>

namespace aftercut::journal {
namespace {

const method::Operation& operation(const farm::Farm& farm, int index) {
  return farm.book.operations[static_cast<std::size_t>(index)];
}

bool hauls(const method::Operation& op) { return op.implement == "bale_wagon"; }

straw::Tool tool_of(const farm::Farm& farm, int implement) {
  if (implement == farm::nobody) return {};
  const machinery::Implement& i = farm.implements[static_cast<std::size_t>(implement)];
  return {i.depth_cm, i.chop_length_mm};
}

/// The highest boards of the book's methods.
double usual_boards_mm(const farm::Farm& farm) {
  double mm = 0.0;
  for (const method::Recipe& r : farm.book.recipes)
    if (r.water) mm = std::max(mm, r.water->board_mm);
  return mm;
}

void take_effect(const farm::Farm& farm, FieldState& f, season::FieldYear& life, const farm::WorkDone& w) {
  const method::Operation& op = operation(farm, w.operation);
  life.apply(op, 1.0, tool_of(farm, f.running->implement));
  if (op.effect.bale_share > 0.0) {
    f.bales_lie = 1.0;
    f.baled_by = f.running->implement;
  }
  if (hauls(op)) f.bales_lie = 0.0;
  if (op.water == method::Water::boards_in) life.set_boards(w.board_mm.value_or(usual_boards_mm(farm)));
  if (op.water == method::Water::boards_out) {
    life.set_boards(0.0);
    f.water_wanted_mm.reset();
  }
  if (op.water != method::Water::none) f.filled = op.water == method::Water::fill;
  if (!op.when.not_too_dry) f.rough_end = life.day();
  f.last_end = life.day();
}

Stage& stage_of(FieldState& f, const Running& r) {
  if (f.done.empty() || f.done.back().operation != r.operation)
    f.done.push_back(
        {.operation = r.operation, .first_day = r.first_day, .straw_for_passes = r.straw_for_passes});
  f.done.back().last_day = r.last_day;
  f.done.back().implement = r.implement;
  return f.done.back();
}

/// Area that a pass asks for: of a haul that on which bales lie.
double asked_ha(const method::Operation& op, const FieldState& f, double field_ha) {
  return hauls(op) && f.bales_lie > 0.0 ? f.bales_lie * field_ha : field_ha;
}

bool is_whole(const method::Operation& op, const FieldState& f, double field_ha) {
  return f.running->area_ha >= asked_ha(op, f, field_ha) - 1e-9;
}

/// The parts came to the whole field, though nobody wrote that it was finished: the pass is done.
void end_whole(const farm::Farm& farm, FieldState& f, season::FieldYear& life) {
  const Running r = *f.running;
  take_effect(farm, f, life, {.operation = r.operation});
  f.last_end = r.last_day;
  if (!operation(farm, r.operation).when.not_too_dry) f.rough_end = r.last_day;
  f.running.reset();
  ++stage_of(f, r).passes;
}

/// Another operation begins, or the owner leaves it at that: what was done of the pass takes effect.
void break_off(const farm::Farm& farm, double field_ha, FieldState& f, season::FieldYear& life) {
  if (!f.running) return;
  const method::Operation& op = operation(farm, f.running->operation);
  if (is_whole(op, f, field_ha)) return end_whole(farm, f, life);
  const double share = std::min(1.0, f.running->area_ha / field_ha);
  if (share > 0.0 && share < 1.0) life.apply(op, share, tool_of(farm, f.running->implement));
  if (op.effect.bale_share > 0.0) f.bales_lie = std::max(f.bales_lie, share);
  f.running.reset();
}

void note_outfit(const method::Operation& op, State& state, const farm::WorkDone& w, double area_ha) {
  if (op.burning) state.burned_ha += area_ha;
  if (w.implement == farm::nobody || w.by_others) return;
  HiredSoFar& hired = state.implements[static_cast<std::size_t>(w.implement)];
  hired.here = hired.called_out = true;
  hired.area_ha += area_ha;
}

}  // namespace

void note_work(const farm::Farm& farm, State& state, season::FieldYear& life, const farm::WorkDone& w) {
  FieldState& f = state.fields[w.field];
  const double field_ha = farm.fields[w.field].area.value();
  const method::Operation& op = operation(farm, w.operation);
  if (f.running && f.running->operation != w.operation) break_off(farm, field_ha, f, life);
  if (!f.running)
    f.running = {
        .operation = w.operation, .first_day = life.day(), .straw_for_passes = life.straw_for_passes()};
  Running& r = *f.running;
  r.last_day = life.day();
  if (w.implement != farm::nobody) r.implement = w.implement;
  const double left = std::max(0.0, asked_ha(op, f, field_ha) - r.area_ha),
               area = w.finishes ? left : std::min(w.area_ha, left);
  r.area_ha += area;
  note_outfit(op, state, w, area);
  if (!w.finishes && !w.no_more) return;
  const Running ended = r;
  const bool finished = w.finishes || is_whole(op, f, field_ha);
  if (finished)
    take_effect(farm, f, life, w);
  else
    break_off(farm, field_ha, f, life);
  f.running.reset();
  Stage& stage = stage_of(f, ended);
  if (finished) ++stage.passes;
  stage.no_more = stage.no_more || w.no_more;
}

}  // namespace aftercut::journal
