#include "aftercut/dispatch/standstill.hpp"

#include <optional>

#include "aftercut/dispatch/conditions.hpp"

namespace aftercut::dispatch {
namespace {

using plan::WaitsFor;

/// What the ground, the straw and the weather of the morning bar; nothing: they let it be worked.
std::optional<WaitsFor> barred_by_mask(const Table& t, const method::Operation& op, const season::DayMask& m,
                                       bool boards_in) {
  const method::Condition& c = op.when;
  if (c.least_ponded_mm && m.ponded_mm < *c.least_ponded_mm) return WaitsFor::pond;
  if ((c.workable && !m.workable) || !drive_ok(op, m) ||
      (c.most_ponded_mm && m.ponded_mm > *c.most_ponded_mm))
    return boards_in && m.ponded_mm > 0.0 ? WaitsFor::water_held : WaitsFor::wet_ground;
  const bool bales = op.effect.bale_share > 0.0;
  if ((c.most_straw_moisture_percent && m.straw_moisture_percent > *c.most_straw_moisture_percent) ||
      (bales && m.straw_moisture_percent > t.problem->farm.bale_moisture_percent))
    return WaitsFor::wet_straw;
  if (c.most_rain_mm && m.rain_mm > *c.most_rain_mm) return WaitsFor::rain;
  if (!m.too_dry && c.least_drying_mm && m.drying_mm < *c.least_drying_mm) return WaitsFor::drying;
  return std::nullopt;
}

}  // namespace

WaitsFor waits_for_what(const Table& t, std::size_t f, std::size_t year, int day, const Progress& p,
                        const season::FieldYear& sim) {
  const method::Operation& op = current_operation(t, p);
  const bool boards_in = sim.boards_are_in();
  if (!is_due(t, f, p, day)) return boards_in ? WaitsFor::water_held : WaitsFor::dates;
  if (sim.rutted() && kept_off_ruts(op)) return WaitsFor::ruts;
  if (op.water == method::Water::fill) return WaitsFor::canal;
  const season::DayMask m = sim.mask();
  if (const auto barred = barred_by_mask(t, op, m, boards_in)) return *barred;
  if (m.too_dry && op.when.not_too_dry && !can_run(t, f, p, day, sim)) return WaitsFor::hard_ground;
  if (road_too_soft(t, f, year, day, op)) return WaitsFor::soft_road;
  const auto& burn = t.burn_days[year];
  const auto d = static_cast<std::size_t>(day);
  if (op.burning && (burn.open[d] == 0 || burn.called[d] == 0)) return WaitsFor::burn_day;
  if (op.water == method::Water::boards_out) return WaitsFor::water_held;
  return WaitsFor::nobody;
}

}  // namespace aftercut::dispatch
