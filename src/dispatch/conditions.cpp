#include "aftercut/dispatch/conditions.hpp"

namespace aftercut::dispatch {
namespace {

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

}  // namespace

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
  const bool dry_already = c.not_too_dry && m.too_dry;
  return dry_already || !c.least_drying_mm || m.drying_mm >= *c.least_drying_mm;
}

bool kept_off_ruts(const method::Operation& op) {
  return op.burning || op.effect.bale_share > 0.0 || op.effect.lay_after == straw::Lay::windrow;
}

bool left_out(const Table& t, const farm::Field& field, const method::Step& s, const season::FieldYear& sim) {
  if (s.season == method::Season::spring && field.next.kind == farm::NextUseKind::fallow) return true;
  if (s.only_if_windrow && sim.lay() != straw::Lay::windrow) return true;
  const method::Water water = t.problem->farm.book.operations[static_cast<std::size_t>(s.operation)].water;
  if ((water == method::Water::fill || water == method::Water::boards_out) && !sim.boards_are_in())
    return true;
  return s.only_if_rutted && !sim.rutted();
}

int passes_of(const method::Step& s, double straw_kg_per_ha) {
  if (s.passes.empty()) return 1;
  int passes = 0;
  for (const auto& row : s.passes)
    if (straw_kg_per_ha > row.above_kg_per_ha) passes = row.passes;
  return passes;
}

}  // namespace aftercut::dispatch
