#include "steps.hpp"

#include <algorithm>
#include <utility>

#include "hired.hpp"

namespace aftercut::audit {
namespace {

const farm::Field& at(const farm::Farm& farm, int field) {
  return farm.fields[static_cast<std::size_t>(field)];
}
const method::Recipe& recipe_at(const farm::Farm& farm, int recipe) {
  return farm.book.recipes[static_cast<std::size_t>(recipe)];
}
const method::Operation& op_at(const farm::Farm& farm, const method::Step& step) {
  return farm.book.operations[static_cast<std::size_t>(step.operation)];
}

Standing enter(Standing s, int step, int before_ended) {
  s.step = step;
  s.pass = 0;
  s.passes = 0;
  s.done_ha = 0.0;
  s.begun = false;
  s.before_ended = before_ended;
  s.last_implement = plan::none;
  if (!(s.waits_ha > 0.0) || s.waits_step != step) return s;
  s.pass = s.waits_pass;
  s.done_ha = std::exchange(s.waits_ha, 0.0);
  s.begun = true;
  return s;
}

/// The step before is done again where this one is still to be done; what is done of this one keeps.
Standing repeat_before(Standing s, int day) {
  if (s.done_ha > 0.0 && !(s.waits_ha > 0.0)) {
    s.waits_step = s.step;
    s.waits_pass = s.pass;
    s.waits_ha = s.done_ha;
  }
  s = enter(s, s.step - 1, day - 1);
  s.done_ha = s.waits_ha;
  s.begun = true;  // work was done in it once: it is not passed over
  return s;
}

/// The baling or burning step still lies ahead, or is under way.
bool key_ahead(const farm::Farm& farm, const Standing& s) {
  const auto& steps = recipe_at(farm, s.recipe).steps;
  const auto key = std::find_if(steps.begin(), steps.end(), [&](const method::Step& step) {
    return op_at(farm, step).burning || op_at(farm, step).effect.bale_share > 0.0;
  });
  return s.step <= static_cast<int>(key - steps.begin());
}

int recipe_index(const farm::Farm& farm, const MethodId& id) {
  for (std::size_t r = 0; r < farm.book.recipes.size(); ++r)
    if (farm.book.recipes[r].id == id) return static_cast<int>(r);
  return plan::none;
}

std::optional<Cut> cut_short(const farm::Farm& farm, int field, Standing& s) {
  const bool waits = s.waits_ha > 0.0;
  const double done_ha = waits ? std::exchange(s.waits_ha, 0.0) : s.done_ha;
  if (!(done_ha > 0.0)) return std::nullopt;
  const auto& steps = recipe_at(farm, s.recipe).steps;
  const method::Step& step = steps[static_cast<std::size_t>(waits ? s.waits_step : s.step)];
  Cut cut{step.operation, s.last_implement, done_ha / at(farm, field).area.value()};
  if (op_at(farm, step).effect.bale_share > 0.0) {
    s.bales_lie = std::max(s.bales_lie, cut.share);
    cut.implement = s.baled_by;
  }
  return cut;
}

bool is_hauling(const farm::Farm& farm, const method::Step& step) {
  return op_at(farm, step).implement == "bale_wagon";
}

/// The recipe that takes over from this one, sooner or later; none: no other does.
int recipe_after(const farm::Farm& farm, const Standing& s) {
  if (s.instead.method != plan::none) return s.instead.method;
  const auto& back = recipe_at(farm, s.recipe).fall_back;
  return back ? recipe_index(farm, back->method) : plan::none;
}

/// The recipe that takes over on this morning; none: no other does.
int next_recipe(const farm::Farm& farm, const Standing& s, int day) {
  if (s.fell_back || s.clears || !key_ahead(farm, s)) return plan::none;
  const auto& back = recipe_at(farm, s.recipe).fall_back;
  const bool instead = s.instead.method != plan::none;
  if (!instead && !back) return plan::none;
  const int from = instead ? s.instead.from_day : farm.season.day(back->start_by);
  return day >= from ? recipe_after(farm, s) : plan::none;
}

/// The other recipe from its first step.
Standing taken_over(Standing s, int recipe, int day) {
  s.recipe = recipe;
  s.fell_back = true;
  s.clears = false;
  s.bales_lie = s.hauled_ha = 0.0;
  s = enter(s, 0, day - 1);
  s.roughed = day - 1;
  s.baled_by = plan::none;
  return s;
}

/// The recipe's turn has ended: bales that lie about are hauled before the other one begins.
Standing turn_ends(const farm::Farm& farm, int field, Standing s, int recipe, int day) {
  const auto& steps = recipe_at(farm, s.recipe).steps;
  const auto haul = std::find_if(steps.begin() + s.step, steps.end(),
                                 [&](const method::Step& step) { return is_hauling(farm, step); });
  const bool any_left = s.bales_lie * at(farm, field).area.value() - s.hauled_ha > 1e-9;
  if (!any_left || haul == steps.end()) return taken_over(s, recipe, day);
  s = enter(s, static_cast<int>(haul - steps.begin()), day - 1);
  s.clears = true;
  return s;
}

bool is_cleared(const farm::Farm& farm, const Standing& s) {
  const method::Step* step = step_of(farm, s);
  return s.clears && (step == nullptr || !is_hauling(farm, *step));
}

bool lag_is_over(const farm::Farm& farm, const Standing& s, int day) {
  const auto most = step_of(farm, s)->most_lag_days;
  return most && s.step > 0 && day > s.before_ended + *most;
}

bool not_for_field(const farm::Farm& farm, int field, const method::Step& step,
                   const season::FieldYear& life) {
  const bool spring_of_fallow =
      step.season == method::Season::spring && at(farm, field).next.kind == farm::NextUseKind::fallow;
  const bool no_windrow = step.only_if_windrow && life.lay() != straw::Lay::windrow;
  const bool no_ruts = step.only_if_rutted && !life.rutted();
  const method::Water water = op_at(farm, step).water;
  const bool no_boards =
      !life.boards_are_in() && water != method::Water::none && water != method::Water::boards_in;
  return spring_of_fallow || no_windrow || no_ruts || no_boards;
}

/// Water that has not all come by the end of the supply, or by the day the boards are due out, comes no more.
bool fill_ends_unmet(const farm::Farm& farm, int field, const Standing& s, int day) {
  if (operation_of(farm, s)->water != method::Water::fill) return false;
  if (day >= boards_out_from(farm, field, s.recipe)) return true;
  return !farm.supply || farm.season.date(day) > next_on(farm.supply->off, farm.season.first);
}

/// Without rows a step is done once; straw at or below the first row asks for none.
int count_passes(const method::Step& step, double straw_kg_per_ha) {
  int n = step.passes.empty() ? 1 : 0;
  for (std::size_t k = 0; k < step.passes.size() && straw_kg_per_ha > step.passes[k].above_kg_per_ha; ++k)
    n = step.passes[k].passes;
  return n;
}

}  // namespace

Standing at_harvest(int recipe, int harvest_day) {
  Standing s;
  s.recipe = recipe;
  s.before_ended = harvest_day;
  s.pass_ended = harvest_day;
  s.roughed = harvest_day;
  return s;
}

const method::Step* step_of(const farm::Farm& farm, const Standing& s) {
  if (s.recipe == plan::none) return nullptr;
  const auto& steps = recipe_at(farm, s.recipe).steps;
  return s.step < static_cast<int>(steps.size()) ? &steps[static_cast<std::size_t>(s.step)] : nullptr;
}

const method::Operation* operation_of(const farm::Farm& farm, const Standing& s) {
  const method::Step* step = step_of(farm, s);
  return step == nullptr ? nullptr : &op_at(farm, *step);
}

Morning morning(const farm::Farm& farm, int field, Standing s, int day, const season::FieldYear& life) {
  Morning m;
  const int next = step_of(farm, s) == nullptr ? plan::none : next_recipe(farm, s, day);
  if (next != plan::none) {
    m.cut = cut_short(farm, field, s);
    s = turn_ends(farm, field, s, next, day);
  } else if (step_of(farm, s) != nullptr && lag_is_over(farm, s, day)) {
    s = repeat_before(s, day);
  }
  for (;;) {
    if (is_cleared(farm, s)) s = taken_over(s, recipe_after(farm, s), day);
    const method::Step* step = step_of(farm, s);
    if (step == nullptr) break;
    if (s.hauled_ha > 0.0 && is_hauling(farm, *step)) {  // done of it while the baling went on
      s.done_ha = std::exchange(s.hauled_ha, 0.0);
      s.begun = true;
    }
    const bool given_up = step->give_up && !s.begun && day >= farm.season.day(*step->give_up);
    const bool late = given_up || fill_ends_unmet(farm, field, s, day);
    const auto gone = bales_gone(farm, s);
    const bool dropped = never_done(s, step->operation) && day >= s.instead.from_day;
    const bool left_out = dropped || not_for_field(farm, field, *step, life);
    if (!left_out && gone && day > *gone) {
      s = enter(s, s.step + 1, *gone);
      continue;
    }
    if (!left_out) {
      s.passed_over += late && !s.begun ? 1 : 0;
      if (!late && s.passes == 0)
        s.passes = std::max(count_passes(*step, life.straw_for_passes()), s.done_ha > 0.0 ? s.pass + 1 : 0);
      if (!late && s.passes > 0) break;
    }
    s = enter(s, s.step + 1, s.before_ended);
  }
  m.standing = s;
  return m;
}

double asked_ha(const farm::Farm& farm, int field, const Standing& s) {
  return at(farm, field).area.value() * (s.clears ? s.bales_lie : 1.0);
}

bool never_done(const Standing& s, int operation) {
  const auto& list = s.instead.without;
  return std::find(list.begin(), list.end(), operation) != list.end();
}

bool only_spring_left(const farm::Farm& farm, const Standing& s) {
  const method::Step* step = step_of(farm, s);
  return step == nullptr || step->season == method::Season::spring ||
         op_at(farm, *step).water == method::Water::boards_out;
}

Standing pass_over(const farm::Farm& farm, Standing s, int day) {
  s.pass_ended = day;
  if (!operation_of(farm, s)->when.not_too_dry) s.roughed = day;
  if (s.pass + 1 >= s.passes) return enter(s, s.step + 1, day);
  ++s.pass;
  s.done_ha = s.waits_ha;
  s.last_implement = plan::none;
  return s;
}

int boards_out_from(const farm::Farm& farm, int field, int recipe) {
  const auto& water = recipe_at(farm, recipe).water;
  const auto& lease = at(farm, field).lease;
  int day = water ? farm.season.day(water->draw_down) : 0;
  if (lease) day = std::max(day, farm.season.day(lease->until) + 1);
  return day;
}

}  // namespace aftercut::audit
