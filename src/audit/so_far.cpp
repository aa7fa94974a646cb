#include "so_far.hpp"

#include <algorithm>
#include <set>

namespace aftercut::audit {
namespace {

const method::Operation& op(const Facts& facts, int operation) {
  return facts.farm().book.operations.at(static_cast<std::size_t>(operation));
}

const std::vector<method::Step>& steps(const Facts& facts, int recipe) {
  return facts.farm().book.recipes.at(static_cast<std::size_t>(recipe)).steps;
}

bool bales(const method::Operation& o) { return o.effect.bale_share > 0.0; }
bool hauls(const method::Operation& o) { return o.implement == "bale_wagon"; }

/// Operations that have been begun on the field.
std::set<int> touched(const journal::FieldState& s) {
  std::set<int> all;
  for (const auto& stage : s.done) all.insert(stage.operation);
  for (const auto& pass : {s.running, s.baling_waits})
    if (pass) all.insert(pass->operation);
  return all;
}

/// The furthest step that has been touched without a baling or burning left out before it.
int furthest(const Facts& facts, int recipe, const std::set<int>& been) {
  int found = -1;
  const auto& list = steps(facts, recipe);
  for (int k = 0; k < static_cast<int>(list.size()); ++k) {
    const int operation = list[static_cast<std::size_t>(k)].operation;
    const bool here = been.contains(operation);
    if (here) found = k;
    if (!here && (bales(op(facts, operation)) || op(facts, operation).burning)) break;
  }
  return found;
}

int rows_ask_for(const method::Step& step, double straw) {
  if (step.passes.empty()) return 1;
  int n = 0;
  for (const method::PassRow& row : step.passes) n = straw > row.above_kg_per_ha ? row.passes : n;
  return n;
}

int last_day_before(const Facts& facts, const journal::FieldState& so_far, int field, int operation) {
  int day = facts.farm().season.day(facts.farm().fields.at(static_cast<std::size_t>(field)).harvest);
  for (const auto& stage : so_far.done) {
    if (stage.operation == operation) break;
    day = std::max(day, stage.last_day);
  }
  return day;
}

/// The kth step bales and waits for its straw to be raked anew: at that raking, or at the baling where the
/// recipe has no such step before it.
Standing at_waiting(const Facts& facts, int field, const journal::FieldState& so_far, Standing s, int k) {
  const auto& list = steps(facts, s.recipe);
  const double baled_ha = so_far.baling_waits->area_ha;
  const bool rakes = k >= 1 && list[static_cast<std::size_t>(k - 1)].operation == so_far.running->operation;
  s.step = rakes ? k - 1 : k;
  const method::Step& step = list[static_cast<std::size_t>(s.step)];
  const auto& pass = rakes ? so_far.running : so_far.baling_waits;
  s.passes = std::max(1, rows_ask_for(step, pass->straw_for_passes));
  s.begun = true;
  s.before_ended = last_day_before(facts, so_far, field, step.operation);
  s.last_implement = pass->implement;
  s.done_ha = baled_ha;
  if (rakes) {
    s.done_ha += so_far.running->area_ha;
    s.waits_step = k;
    s.waits_ha = baled_ha;
  }
  return s;
}

/// In the kth step, whose operation was touched last, or behind it.
Standing at_furthest(const Facts& facts, int field, const journal::FieldState& so_far, Standing s, int k) {
  const auto& place = facts.farm().fields.at(static_cast<std::size_t>(field));
  const double cleared = so_far.bales_lie > 0.0 ? (1.0 - so_far.bales_lie) * place.area.value() : 0.0;
  const auto& list = steps(facts, s.recipe);
  const method::Step& step = list[static_cast<std::size_t>(k)];
  if (so_far.baling_waits && so_far.baling_waits->operation == step.operation)
    return at_waiting(facts, field, so_far, s, k);
  const bool under_way = so_far.running && so_far.running->operation == step.operation;
  const bool newest = !so_far.done.empty() && so_far.done.back().operation == step.operation;
  const int passes = newest ? so_far.done.back().passes : 0;
  const double straw = newest      ? so_far.done.back().straw_for_passes
                       : under_way ? so_far.running->straw_for_passes
                                   : 0.0;
  const bool goes_on = newest && !so_far.done.back().no_more && passes < rows_ask_for(step, straw);
  s.step = under_way || goes_on ? k : k + 1;
  if (!under_way && !goes_on) {
    const bool to_haul = s.step < static_cast<int>(list.size()) &&
                         hauls(op(facts, list[static_cast<std::size_t>(s.step)].operation));
    if (to_haul) s.done_ha = cleared;
    return s;
  }
  s.pass = passes;
  s.passes = std::max(passes + 1, rows_ask_for(step, straw));
  s.begun = true;
  s.before_ended = last_day_before(facts, so_far, field, step.operation);
  if (!under_way) return s;
  s.done_ha = so_far.running->area_ha + (hauls(op(facts, step.operation)) ? cleared : 0.0);
  s.last_implement = so_far.running->implement;
  return s;
}

}  // namespace

const journal::FieldState* state_of(const Facts& facts, int field) {
  return facts.so_far ? &facts.so_far->fields.at(static_cast<std::size_t>(field)) : nullptr;
}

TakenUp taken_up(const Facts& facts, int field, int recipe) {
  const farm::Farm& farm = facts.farm();
  const int harvest = farm.season.day(farm.fields.at(static_cast<std::size_t>(field)).harvest);
  TakenUp out{at_harvest(recipe, harvest)};
  const journal::FieldState* so_far = state_of(facts, field);
  if (so_far == nullptr) return out;
  if (recipe == plan::none) {
    out.drops_the_pass = so_far->running.has_value();
    return out;
  }
  Standing& s = out.standing;
  s.pass_ended = s.before_ended = std::max(harvest, so_far->last_end);
  s.roughed = std::max(harvest, so_far->rough_end);
  s.baled_by = so_far->baled_by;
  s.bales_lie = so_far->bales_lie;
  s.hauled_ha = so_far->behind_baler ? so_far->behind_baler->area_ha : 0.0;
  const int k = furthest(facts, recipe, touched(*so_far));
  if (k >= 0) s = at_furthest(facts, field, *so_far, s, k);
  const auto& list = steps(facts, recipe);
  for (int p = 0; p < static_cast<int>(list.size()) && p < s.step + (s.begun ? 1 : 0); ++p) {
    const method::Step& past = list[static_cast<std::size_t>(p)];
    out.spring_begun =
        out.spring_begun || (past.season == method::Season::spring && op(facts, past.operation).tillage);
  }
  const method::Step* now = step_of(farm, s);
  out.drops_the_pass = so_far->running && (now == nullptr || now->operation != so_far->running->operation);
  return out;
}

season::FieldYear life_so_far(const Facts& facts, int field, season::FieldYear life, bool drops_the_pass) {
  const journal::FieldState* so_far = state_of(facts, field);
  if (so_far == nullptr) return life;
  life.go_on_from(so_far->now);
  if (!drops_the_pass) return life;
  const double ha = facts.farm().fields.at(static_cast<std::size_t>(field)).area.value();
  for (const auto& pass : {so_far->running, so_far->baling_waits}) {
    if (!pass || !(pass->area_ha > 0.0)) continue;
    straw::Tool tool;
    if (pass->implement != farm::nobody) {
      const auto& used = facts.farm().implements.at(static_cast<std::size_t>(pass->implement));
      tool = {.depth_cm = used.depth_cm, .chop_length_mm = used.chop_length_mm};
    }
    life.apply(op(facts, pass->operation), std::min(pass->area_ha / ha, 1.0 - 1e-9), tool);
  }
  return life;
}

std::vector<method::Step> steps_ahead(const Facts& facts, int field, int recipe) {
  const auto& list = steps(facts, recipe);
  const int from = taken_up(facts, field, recipe).standing.step;
  return {list.begin() + std::min<std::ptrdiff_t>(from, std::ssize(list)), list.end()};
}

std::vector<std::string> barred_by_work(const Facts& facts, int field, int recipe) {
  std::vector<std::string> reasons;
  const journal::FieldState* so_far = state_of(facts, field);
  if (so_far == nullptr) return reasons;
  const auto ahead = steps_ahead(facts, field, recipe);
  const auto needs_loose = [&](const method::Step& step) {
    const method::Operation& o = op(facts, step.operation);
    return bales(o) || o.burning || (o.effect.lay_after && *o.effect.lay_after == straw::Lay::windrow);
  };
  const auto takes_it_away = [&](int operation) {
    const method::Operation& o = op(facts, operation);
    const bool chopped = o.effect.lay_after && *o.effect.lay_after == straw::Lay::chopped;
    return o.tillage || chopped || o.effect.straw.press > 0.0 || o.water == method::Water::boards_in;
  };
  const std::set<int> been = touched(*so_far);
  if (std::ranges::any_of(ahead, needs_loose) && std::ranges::any_of(been, takes_it_away))
    reasons.emplace_back("the straw has been worked on otherwise");
  // Raking and baling what is left may come before the haul, nothing else.
  const auto haul =
      std::ranges::find_if(ahead, [&](const method::Step& step) { return hauls(op(facts, step.operation)); });
  const bool haul_first =
      haul != ahead.end() && std::all_of(ahead.begin(), haul, [&](const method::Step& step) {
        return needs_loose(step) && !op(facts, step.operation).burning;
      });
  const bool raked_anew = so_far->baling_waits.has_value();
  const bool baling = raked_anew || (so_far->running && bales(op(facts, so_far->running->operation)));
  const Standing now = taken_up(facts, field, recipe).standing;
  const auto bales_next = [&](int operation) {
    const std::size_t at = static_cast<std::size_t>(now.waits_ha > 0.0 ? now.waits_step : now.step);
    const auto& list = steps(facts, recipe);
    return at < list.size() && list[at].operation == operation;
  };
  const bool goes_on =
      baling && bales_next(raked_anew ? so_far->baling_waits->operation : so_far->running->operation);
  if (baling && !goes_on) reasons.emplace_back("a baling is under way");
  if (so_far->bales_lie > 0.0 && !haul_first && !(baling && goes_on))
    reasons.emplace_back("bales on the field");
  const bool lets_out = std::ranges::any_of(ahead, [&](const method::Step& step) {
    return op(facts, step.operation).water == method::Water::boards_out;
  });
  if (so_far->now.life.board_mm > 0.0 && !lets_out) reasons.emplace_back("boards that nobody takes out");
  return reasons;
}

Findings check_owner(const Facts& facts, const Place& place, const method::Operation& operation) {
  Findings f;
  if (operation.implement.empty()) return f;
  const Date today = facts.farm().season.date(place.day);
  for (const farm::Happened& h : facts.problem->so_far.events) {
    const auto* wet = std::get_if<farm::TooWet>(&h.what);
    if (wet == nullptr || static_cast<int>(wet->field) != place.field) continue;
    f.expect(today < h.day || today > wet->until, "work against the owner's word", place, [&] {
      return Texts{"a machine on " + iso(today), "none until " + iso(wet->until)};
    });
  }
  return f;
}

}  // namespace aftercut::audit
