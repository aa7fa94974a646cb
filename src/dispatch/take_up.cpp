#include "take_up.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/dispatch/progress.hpp"

namespace aftercut::dispatch {
namespace {

bool is_key(const method::Operation& op) { return op.effect.bale_share > 0.0 || op.burning; }

const journal::FieldState* state_of(const Table& t, std::size_t field) {
  return t.so_far ? &t.so_far->fields[field] : nullptr;
}

const method::Operation& operation_at(const Table& t, int operation) {
  return t.problem->farm.book.operations[static_cast<std::size_t>(operation)];
}

bool known(const journal::FieldState& s, int operation) {
  return (s.running && s.running->operation == operation) ||
         (s.baling_waits && s.baling_waits->operation == operation) ||
         std::ranges::count(s.done, operation, &journal::Stage::operation) > 0;
}

/// The last step whose operation has been done, every baling or burning step before it having been done too.
std::optional<std::size_t> last_done(const Table& t, const method::Recipe& r, const journal::FieldState& s) {
  std::size_t until = 0;
  while (until < r.steps.size() &&
         (!is_key(operation_of(t, r.steps[until])) || known(s, r.steps[until].operation)))
    ++until;
  for (std::size_t k = std::min(until + 1, r.steps.size()); k-- > 0;)
    if (known(s, r.steps[k].operation)) return k;
  return std::nullopt;
}

/// The day on which what was done before the last stage of this operation ended.
int ended_before(const journal::FieldState& s, int operation, int harvest) {
  int day = harvest;
  for (const journal::Stage& stage : s.done) {
    if (stage.operation == operation) break;
    day = std::max(day, stage.last_day);
  }
  return day;
}

Start at_step(Start start, const method::Step& step, std::size_t k, int passes_done, double straw) {
  start.step = static_cast<int>(k);
  start.pass = passes_done;
  start.passes = std::max(passes_done + 1, passes_of(step, straw));
  start.started = true;
  return start;
}

/// At the baling that waits while its straw is raked anew: at that raking where it is the recipe's own.
Start from_waiting(const method::Recipe& r, std::size_t k, const journal::FieldState& s, Start start,
                   int harvest) {
  const journal::Running& baling = *s.baling_waits;
  const bool raking = k > 0 && r.steps[k - 1].operation == s.running->operation;
  const journal::Running& now = raking ? *s.running : baling;
  const std::size_t at = raking ? k - 1 : k;
  start = at_step(start, r.steps[at], at, 0, now.straw_for_passes);
  start.last_end = ended_before(s, now.operation, harvest);
  start.implement = now.implement;
  start.area_done_ha = baling.area_ha + (raking ? now.area_ha : 0.0);
  if (raking) start.waits = {static_cast<int>(k), 0, baling.area_ha};
  return start;
}

/// Behind, in or still at the step whose operation was done last.
Start from_step(const Table& t, const farm::Field& field, const method::Recipe& r, std::size_t k,
                const journal::FieldState& s, Start start, int harvest) {
  const int operation = r.steps[k].operation;
  if (s.baling_waits && s.baling_waits->operation == operation) return from_waiting(r, k, s, start, harvest);
  const bool runs = s.running && s.running->operation == operation;
  const bool last = !s.done.empty() && s.done.back().operation == operation;
  const int passes = last ? s.done.back().passes : 0;
  if (runs) {
    start = at_step(start, r.steps[k], k, passes,
                    last ? s.done.back().straw_for_passes : s.running->straw_for_passes);
    start.last_end = ended_before(s, operation, harvest);
    start.implement = s.running->implement;
    const bool hauls = hauls_bales(operation_at(t, operation)) && s.bales_lie > 0.0;
    start.area_done_ha = s.running->area_ha + (hauls ? (1.0 - s.bales_lie) * field.area.value() : 0.0);
    return start;
  }
  const bool more =
      last && !s.done.back().no_more && passes < passes_of(r.steps[k], s.done.back().straw_for_passes);
  if (more) {
    start = at_step(start, r.steps[k], k, passes, s.done.back().straw_for_passes);
    start.last_end = ended_before(s, operation, harvest);
    return start;
  }
  start.step = static_cast<int>(k) + 1;
  const bool haul_next = k + 1 < r.steps.size() && hauls_bales(operation_of(t, r.steps[k + 1]));
  if (haul_next && s.bales_lie > 0.0) start.area_done_ha = (1.0 - s.bales_lie) * field.area.value();
  return start;
}

/// Work after which straw is neither baled nor burned nor raked any more.
bool works_straw_in(const method::Operation& op) {
  return op.tillage || op.effect.straw.press > 0.0 || op.effect.lay_after == straw::Lay::chopped ||
         op.water == method::Water::boards_in;
}

bool wants_loose_straw(const method::Operation& op) {
  return is_key(op) || op.effect.lay_after == straw::Lay::windrow;
}

/// Spring tillage among the steps that are done or begun.
bool spring_begun(const Table& t, const method::Recipe& r, const Start& start) {
  const std::size_t until = static_cast<std::size_t>(start.step) + (start.started ? 1 : 0);
  for (std::size_t k = 0; k < std::min(until, r.steps.size()); ++k)
    if (r.steps[k].season == method::Season::spring && operation_of(t, r.steps[k]).tillage) return true;
  return false;
}

bool any_left(const Table& t, const method::Recipe& r, int from, const auto& is) {
  return std::any_of(r.steps.begin() + std::min<std::ptrdiff_t>(from, std::ssize(r.steps)), r.steps.end(),
                     [&](const method::Step& s) { return is(operation_of(t, s)); });
}

/// The bales that lie are hauled before anything but raking or more baling.
bool hauls_soon(const Table& t, const method::Recipe& r, int from) {
  for (std::size_t k = static_cast<std::size_t>(from); k < r.steps.size(); ++k) {
    const method::Operation& op = operation_of(t, r.steps[k]);
    if (hauls_bales(op)) return true;
    if (op.burning || !wants_loose_straw(op)) return false;
  }
  return false;
}

}  // namespace

Start take_up(const Table& t, std::size_t field, std::size_t recipe) {
  const farm::Field& f = t.problem->farm.fields[field];
  const method::Recipe& r = t.problem->farm.book.recipes[recipe];
  const int harvest = t.problem->farm.season.day(f.harvest);
  Start start{.last_end = harvest, .pass_end = harvest, .rough_end = harvest};
  const journal::FieldState* s = state_of(t, field);
  if (s == nullptr) return start;
  start.pass_end = start.last_end = std::max(harvest, s->last_end);
  start.rough_end = std::max(harvest, s->rough_end);
  start.filled = s->filled;
  start.baled_by = s->baled_by;
  start.bales_lie = s->bales_lie;
  if (s->behind_baler) start.hauled_ha = s->behind_baler->area_ha;
  if (const auto k = last_done(t, r, *s)) start = from_step(t, f, r, *k, *s, start, harvest);
  start.spring_begun = spring_begun(t, r, start);
  start.breaks_off =
      s->running && (start.step >= static_cast<int>(r.steps.size()) ||
                     r.steps[static_cast<std::size_t>(start.step)].operation != s->running->operation);
  return start;
}

std::vector<std::string> barred_by_work_done(const Table& t, std::size_t field, std::size_t recipe) {
  std::vector<std::string> why;
  const journal::FieldState* s = state_of(t, field);
  if (s == nullptr) return why;
  const farm::Farm& farm = t.problem->farm;
  const method::Recipe& r = farm.book.recipes[recipe];
  const Start& start = t.starts[field][recipe];
  std::vector<int> worked;
  for (const journal::Stage& stage : s->done) worked.push_back(stage.operation);
  if (s->running) worked.push_back(s->running->operation);
  for (const int operation : worked)
    if (works_straw_in(operation_at(t, operation)) && any_left(t, r, start.step, wants_loose_straw)) {
      why.push_back(fmt::format("the field has been worked already: {}", operation_at(t, operation).name));
      break;
    }
  const bool baling =
      s->baling_waits || (s->running && operation_at(t, s->running->operation).effect.bale_share > 0.0);
  const int next = start.waits.area_ha > 0.0 ? start.waits.step : start.step;
  const bool bales_on = baling && next < static_cast<int>(r.steps.size()) &&
                        r.steps[static_cast<std::size_t>(next)].operation ==
                            (s->baling_waits ? s->baling_waits : s->running)->operation;
  if (s->bales_lie > 0.0 && !hauls_soon(t, r, start.step) && !bales_on)
    why.emplace_back("bales lie on the field: they are hauled first");
  if (baling && !bales_on) why.emplace_back("it is being baled");
  const auto pulls = [](const method::Operation& op) { return op.water == method::Water::boards_out; };
  if (s->now.life.board_mm > 0.0 && !any_left(t, r, start.step, pulls))
    why.emplace_back("the boards are in, and this method never takes them out");
  return why;
}

season::FieldYear broken_off(const Table& t, std::size_t field, season::FieldYear sim) {
  const journal::FieldState& s = *state_of(t, field);
  for (const auto& pass : {s.running, s.baling_waits}) {
    if (!pass || pass->area_ha <= 0.0) continue;
    const double share = pass->area_ha / t.problem->farm.fields[field].area.value();
    sim.apply(operation_at(t, pass->operation), std::min(share, 1.0 - 1e-9),
              tool_of(t.problem->farm, pass->implement));
  }
  return sim;
}

}  // namespace aftercut::dispatch
