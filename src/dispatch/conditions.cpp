#include "aftercut/dispatch/conditions.hpp"

#include <algorithm>

#include "aftercut/core/require.hpp"

namespace aftercut::dispatch {

bool is_shut(const Table& t, std::size_t field, const method::Operation& op, int day) {
  return !op.implement.empty() && t.shut[field][static_cast<std::size_t>(day)] != 0;
}

bool drive_ok(const method::Operation& op, const season::DayMask& m) {
  if (!op.when.can_drive) return true;
  switch (op.load) {
    case soil::LoadClass::light:
      return m.drive_light;
    case soil::LoadClass::heavy:
      return m.drive_heavy;
    case soil::LoadClass::tracked:
      return m.drive_tracked;
  }
  return false;
}

const method::Operation& operation_of(const Table& t, const method::Step& s) {
  return t.problem->farm.book.operations[static_cast<std::size_t>(s.operation)];
}

int key_step(const Table& t, const method::Recipe& r) {
  for (std::size_t s = 0; s < r.steps.size(); ++s) {
    const method::Operation& op = operation_of(t, r.steps[s]);
    if (op.effect.bale_share > 0.0 || op.burning) return static_cast<int>(s);
  }
  return static_cast<int>(r.steps.size());
}

bool hauls_bales(const method::Operation& op) { return op.implement == "bale_wagon"; }

std::optional<int> hauling_step(const Table& t, const method::Recipe& recipe, int from) {
  for (std::size_t k = static_cast<std::size_t>(from); k < recipe.steps.size(); ++k)
    if (hauls_bales(operation_of(t, recipe.steps[k]))) return static_cast<int>(k);
  return std::nullopt;
}

const method::Recipe& recipe_named(const Table& t, const MethodId& id) {
  for (const auto& r : t.problem->farm.book.recipes)
    if (r.id == id) return r;
  fail("the book holds every fall-back that it names");
}

int first_day_of(const Table& t, std::size_t field, const method::Recipe& recipe, const method::Step& step) {
  int day = t.as_of_day;
  if (step.earliest) day = std::max(day, day_of(t, *step.earliest));
  if (operation_of(t, step).water == method::Water::boards_out)
    day = std::max(day, drawdown_day(t, t.problem->farm.fields[field], recipe));
  return day;
}

int fill_over_on(const Table& t, std::size_t field, const method::Recipe& recipe) {
  const auto& supply = t.problem->farm.supply;
  if (!supply) return 0;
  return std::min(day_of(t, supply->off) + 1, drawdown_day(t, t.problem->farm.fields[field], recipe));
}

bool wants_top_up(const method::WaterWanted& water, const season::FieldYear& sim) {
  return water.keep_up && sim.water().ponded_mm < 0.5 * water.target_mm;
}

bool conditions_hold(const Table& t, const method::Operation& op, const season::DayMask& m) {
  const method::Condition& c = op.when;
  if (c.workable && !m.workable) return false;
  if (!drive_ok(op, m)) return false;
  if (c.most_straw_moisture_percent && m.straw_moisture_percent > *c.most_straw_moisture_percent)
    return false;
  if (op.effect.bale_share > 0.0 && m.straw_moisture_percent > t.problem->farm.bale_moisture_percent)
    return false;
  if (c.least_ponded_mm && m.ponded_mm < *c.least_ponded_mm) return false;
  if (c.most_ponded_mm && m.ponded_mm > *c.most_ponded_mm) return false;
  if (c.most_rain_mm && m.rain_mm > *c.most_rain_mm) return false;
  return m.too_dry || !c.least_drying_mm || m.drying_mm >= *c.least_drying_mm;
}

bool kept_off_ruts(const method::Operation& op) {
  return op.burning || op.effect.bale_share > 0.0 || op.effect.lay_after == straw::Lay::windrow;
}

bool left_out(const Table& t, const farm::Field& field, const method::Step& s, const season::FieldYear& sim) {
  if (s.season == method::Season::spring && field.next.kind == farm::NextUseKind::fallow) return true;
  if (s.only_if_windrow && sim.lay() != straw::Lay::windrow) return true;
  const method::Water water = operation_of(t, s).water;
  if ((water == method::Water::fill || water == method::Water::boards_out) && !sim.boards_are_in())
    return true;
  return s.only_if_rutted && !sim.rutted();
}

bool road_too_soft(const Table& t, std::size_t field, std::size_t year, int day,
                   const method::Operation& op) {
  const farm::Travel& travel = t.problem->farm.travel;
  if (!hauls_bales(op) || travel.access.empty()) return false;
  return travel.access[field] != farm::Access::hard && t.soft_roads[year][static_cast<std::size_t>(day)] != 0;
}

int passes_of(const method::Step& s, double straw_kg_per_ha) {
  if (s.passes.empty()) return 1;
  int passes = 0;
  for (const auto& row : s.passes)
    if (straw_kg_per_ha > row.above_kg_per_ha) passes = row.passes;
  return passes;
}

}  // namespace aftercut::dispatch
