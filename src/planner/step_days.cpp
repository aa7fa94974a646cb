#include "step_days.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/dispatch/burn_day.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/dispatch/progress.hpp"

namespace aftercut::planner {
namespace {

constexpr double less_drying = 0.9;  // histories between those that are lived may dry a little faster

/// Days of a burn call and of its weather.
bool burn_day(const StepAsked& a, int day, straw::Lay lay) {
  return a.table->burn_days[a.year].called[static_cast<std::size_t>(day)] != 0 &&
         dispatch::open_to_burn(*a.table, a.field, a.year, day, lay, {});
}

/// Where water comes through the levees, enough may stand on any day.
bool ground_lets(const StepAsked& a, const season::FieldYear& sim) {
  const method::Operation& op = operation_of(a);
  if (sim.rutted() && dispatch::kept_off_ruts(op)) return false;
  season::DayMask mask = sim.mask();
  if (takes_seepage(a) && op.when.least_ponded_mm)
    mask.ponded_mm = std::max(mask.ponded_mm, *op.when.least_ponded_mm);
  mask.rain_mm = 0.0;
  mask.drying_mm = std::numeric_limits<double>::max();
  return dispatch::conditions_hold(*a.table, op, mask);
}

/// Whatever was tilled since: what has evaporated since water last stood is the most that can count.
bool dried_enough(const method::Operation& op, const History& h) {
  return h.dried_mm >= less_drying * op.when.least_drying_mm.value_or(0.0) || could_be_too_dry(h.sim);
}

}  // namespace

int first_day(const StepAsked& a) { return dispatch::first_day_of(*a.table, a.field, *a.recipe, *a.step); }

int last_day(const StepAsked& a) {
  const farm::Farm& farm = a.table->problem->farm;
  int cut_off = std::min(farm.season.day(field_of(a).next.cut_off), farm.season.days - 1);
  if (a.taken_over && a.step - a.recipe->steps.data() <= dispatch::key_step(*a.table, *a.recipe))
    cut_off = std::min(cut_off, *a.taken_over - 1);
  if (operation_of(a).water != method::Water::fill) return cut_off;
  return std::min(cut_off, dispatch::fill_over_on(*a.table, a.field, *a.recipe) - 1);
}

std::optional<int> given_up_on(const StepAsked& a) {
  std::optional<int> day;
  if (a.step->give_up) day = dispatch::day_of(*a.table, *a.step->give_up);
  if (operation_of(a).water != method::Water::fill) return day;
  const int over = dispatch::fill_over_on(*a.table, a.field, *a.recipe);
  return std::min(day.value_or(over), over);
}

bool lets_work(const StepAsked& a, const History& h) {
  const method::Operation& op = operation_of(a);
  const int day = h.sim.day();
  if (!ground_lets(a, h.sim) || !dried_enough(op, h)) return false;
  if (op.burning && !burn_day(a, day, h.sim.lay())) return false;
  return op.water != method::Water::fill || a.table->water_on[static_cast<std::size_t>(day)] != 0;
}

bool rain_lets(const StepAsked& a, int day) {
  const auto& most = operation_of(a).when.most_rain_mm;
  return !most || a.table->drivers[a.year].rain_mm[static_cast<std::size_t>(day)] <= *most;
}

bool takes_seepage(const StepAsked& a) { return !a.table->seeps_from[a.field].empty(); }

}  // namespace aftercut::planner
