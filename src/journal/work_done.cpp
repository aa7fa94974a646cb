#include "work_done.hpp"

#include <algorithm>
#include <utility>

namespace aftercut::journal {
namespace {

/// What may be missing from a pass that is whole, of its area. Source: WholePass (assumed)
constexpr double whole_from_share = 0.01;

const method::Operation& operation(const farm::Farm& farm, int index) {
  return farm.book.operations[static_cast<std::size_t>(index)];
}

bool bales(const method::Operation& op) { return op.effect.bale_share > 0.0; }
bool hauls(const method::Operation& op) { return op.implement == "bale_wagon"; }

bool rakes(const method::Operation& op) { return op.effect.lay_after == straw::Lay::windrow; }

/// The baling that has begun: it runs, or waits while its straw is raked anew.
template <class State>
auto baling_of(const farm::Farm& farm, State& f) -> decltype(&*f.running) {
  if (f.baling_waits) return &*f.baling_waits;
  return f.running && bales(operation(farm, f.running->operation)) ? &*f.running : nullptr;
}

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
  if (bales(op)) f.bales_lie = 1.0;
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

/// Area that a pass asks for: of a haul that on which bales lie; of raking anew what is not baled.
double asked_ha(const method::Operation& op, const FieldState& f, double field_ha) {
  if (f.baling_waits && !bales(op)) return std::max(0.0, field_ha - f.baling_waits->area_ha);
  return hauls(op) && f.bales_lie > 0.0 ? f.bales_lie * field_ha : field_ha;
}

/// Nobody writes down the last strip of a field, nor more digits than the page shows.
bool is_whole(const method::Operation& op, const FieldState& f, double field_ha) {
  return f.running->area_ha >= (1.0 - whole_from_share) * asked_ha(op, f, field_ha);
}

/// What runs is over: the baling goes on, or hauling that was behind it as a pass of its own.
void end_running(FieldState& f) {
  f.running = std::exchange(f.baling_waits ? f.baling_waits : f.behind_baler, std::nullopt);
}

/// The pass that runs is done.
Stage& finish(const farm::Farm& farm, FieldState& f, season::FieldYear& life, const farm::WorkDone& w) {
  const Running ended = *f.running;
  take_effect(farm, f, life, w);
  end_running(f);
  Stage& stage = stage_of(f, ended);
  ++stage.passes;
  stage.unsaid = !w.finishes && !w.no_more;
  return stage;
}

/// Another operation begins, or the owner leaves it at that: what was done of the pass takes effect.
void break_off(const farm::Farm& farm, double field_ha, FieldState& f, season::FieldYear& life) {
  const method::Operation& op = operation(farm, f.running->operation);
  const double share = std::min(1.0, f.running->area_ha / field_ha);
  if (share > 0.0 && share < 1.0) life.apply(op, share, tool_of(farm, f.running->implement));
  if (bales(op)) f.bales_lie = std::max(f.bales_lie, share);
  if (hauls(op)) f.bales_lie = std::max(0.0, f.bales_lie - share);
  end_running(f);
}

Running begun(int operation, const season::FieldYear& life) {
  return {.operation = operation, .first_day = life.day(), .straw_for_passes = life.straw_for_passes()};
}

void note_outfit(const method::Operation& op, State& state, const farm::WorkDone& w, double area_ha) {
  if (op.burning) state.burned_ha += area_ha;
  if (w.implement == farm::nobody || w.by_others) return;
  HiredSoFar& hired = state.implements[static_cast<std::size_t>(w.implement)];
  hired.here = hired.called_out = true;
  hired.area_ha += area_ha;
}

/// Takes a record of work into a pass; the area that it adds.
double go_on(Running& r, int day, const farm::WorkDone& w, double left_ha) {
  r.last_day = day;
  if (w.implement != farm::nobody) r.implement = w.implement;
  const double area = w.finishes ? left_ha : std::min(w.area_ha, left_ha);
  r.area_ha += area;
  return area;
}

/// Bales are taken off while the field is still being baled: neither breaks the other off. Where more is
/// hauled than was written down as baled, as much has been baled.
double haul_behind_baler(FieldState& f, Running& baling, const season::FieldYear& life,
                         const farm::WorkDone& w, double field_ha) {
  if (!f.behind_baler) f.behind_baler = begun(w.operation, life);
  Running& r = *f.behind_baler;
  const double asked_ha = w.finishes ? baling.area_ha : field_ha;
  const double area = go_on(r, life.day(), w, std::max(0.0, asked_ha - r.area_ha));
  baling.area_ha = std::max(baling.area_ha, r.area_ha);
  return area;
}

/// More of a pass whose parts had come to the whole field: it stays one pass.
bool belongs_to_whole(const farm::Farm& farm, const FieldState& f, const farm::WorkDone& w) {
  if (f.done.empty() || !f.done.back().unsaid || f.done.back().operation != w.operation) return false;
  return !f.running || (bales(operation(farm, w.operation)) && hauls(operation(farm, f.running->operation)));
}

void note_more_of_whole(FieldState& f, int day, const farm::WorkDone& w) {
  Stage& stage = f.done.back();
  stage.last_day = f.last_end = day;
  stage.no_more = stage.no_more || w.no_more;
  stage.unsaid = !w.finishes && !w.no_more;
}

/// Bales are said to be hauled where none lie any more: their last hauling, whatever else is under way.
Stage* hauled_before(FieldState& f, const farm::WorkDone& w) {
  const bool hauling = f.running && f.running->operation == w.operation;
  if (hauling || f.bales_lie > 0.0) return nullptr;
  const auto last = std::ranges::find_if(f.done.rbegin(), f.done.rend(), [&](const Stage& s) {
    return s.operation == w.operation && s.passes > 0;
  });
  return last != f.done.rend() ? &*last : nullptr;
}

/// A record of work in the field's own pass; the area that it adds.
double note_pass(const farm::Farm& farm, FieldState& f, season::FieldYear& life, const farm::WorkDone& w,
                 double field_ha) {
  const method::Operation& op = operation(farm, w.operation);
  if (rakes(op) && f.running && bales(operation(farm, f.running->operation)))
    f.baling_waits = std::exchange(f.running, std::nullopt);
  while (f.running && f.running->operation != w.operation) break_off(farm, field_ha, f, life);
  if (!f.running) f.running = begun(w.operation, life);
  const double left_ha = std::max(0.0, asked_ha(op, f, field_ha) - f.running->area_ha);
  const double added_ha = go_on(*f.running, life.day(), w, left_ha);
  if (bales(op)) f.baled_by = f.running->implement;
  if (w.finishes || is_whole(op, f, field_ha)) {
    finish(farm, f, life, w).no_more |= w.no_more;
  } else if (w.no_more) {
    const Running ended = *f.running;
    break_off(farm, field_ha, f, life);
    stage_of(f, ended).no_more = true;
  }
  return added_ha;
}

}  // namespace

void note_work(const farm::Farm& farm, State& state, season::FieldYear& life, const farm::WorkDone& w) {
  FieldState& f = state.fields[w.field];
  const double field_ha = farm.fields[w.field].area.value();
  const method::Operation& op = operation(farm, w.operation);
  if (belongs_to_whole(farm, f, w)) return note_more_of_whole(f, life.day(), w);
  Running* const baling = hauls(op) ? baling_of(farm, f) : nullptr;
  if (Stage* const last = hauls(op) && baling == nullptr ? hauled_before(f, w) : nullptr) {
    last->last_day = life.day();
    return;
  }
  const double added_ha = baling != nullptr ? haul_behind_baler(f, *baling, life, w, field_ha)
                                            : note_pass(farm, f, life, w, field_ha);
  note_outfit(op, state, w, added_ha);
  // Hauling that went on behind the baler may have come to all of it.
  while (f.running && is_whole(operation(farm, f.running->operation), f, field_ha))
    finish(farm, f, life, {.operation = f.running->operation});
}

double bales_lying(const farm::Farm& farm, const FieldState& f, double field_ha) {
  double share = f.bales_lie;
  if (const Running* const baling = baling_of(farm, f); baling != nullptr)
    share += (baling->area_ha - (f.behind_baler ? f.behind_baler->area_ha : 0.0)) / field_ha;
  else if (f.running && hauls(operation(farm, f.running->operation)))
    share -= f.running->area_ha / field_ha;
  return std::clamp(share, 0.0, 1.0);
}

}  // namespace aftercut::journal
