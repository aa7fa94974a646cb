#include "aftercut/machinery/capacity.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::machinery {
namespace {

double soil_factor(const KindRow& row, SoilGroup soil) {
  if (soil == SoilGroup::fine) return 1.0;
  return soil == SoilGroup::medium ? row.f_medium : row.f_coarse;
}

KiloNewton pull_of(const Implement& implement, const KindRow& row, SoilGroup soil) {
  DraftInput in;
  in.a = row.draft_a;
  in.b = row.draft_b;
  in.c = row.draft_c;
  in.soil_factor = soil_factor(row, soil);
  in.width_or_tools = row.draft_by_tools ? implement.tools : implement.width.value();
  in.depth_cm = row.depth_matters ? implement.depth_cm : 1.0;
  in.speed = implement.speed;
  return draft(in);
}

}  // namespace

HaPerHour field_capacity(KmPerHour speed, Metre width, Fraction efficiency) {
  return HaPerHour{speed.value() * width.value() * efficiency.value() / 10.0};
}

HaPerHour capped_by_throughput(HaPerHour rate, std::optional<TonnePerHour> throughput, KgPerHa straw) {
  if (!throughput || straw.value() <= 0.0) return rate;
  return std::min(rate, HaPerHour{throughput->value() * 1000.0 / straw.value()});
}

KiloNewton draft(const DraftInput& in) {
  const double s = in.speed.value();
  return KiloNewton{in.soil_factor * (in.a + in.b * s + in.c * s * s) * in.width_or_tools * in.depth_cm /
                    1000.0};
}

KiloWatt drawbar_power(KiloNewton pull, KmPerHour speed) {
  return KiloWatt{pull.value() * speed.value() / 3.6};
}

Fraction traction_ratio(Drive drive, Ground ground) {
  // [drive][ground]: firm, tilled, soft. Source: ArizonaMachinery (read); track on firm ground recalled as
  // 0.82 elsewhere.
  constexpr double table[4][3] = {
      {0.72, 0.67, 0.55}, {0.77, 0.73, 0.65}, {0.78, 0.75, 0.70}, {0.79, 0.80, 0.78}};
  return Fraction{table[static_cast<std::size_t>(drive)][static_cast<std::size_t>(ground)]};
}

KiloWatt rotary_power(const KindRow& row, Metre width, TonnePerHour feed) {
  return KiloWatt{row.rotary_a_kw + row.rotary_b_kw_per_m * width.value() +
                  row.rotary_c_kwh_per_t * feed.value()};
}

PowerParts power_parts(const Implement& implement, Drive drive, Ground ground, SoilGroup soil,
                       KgPerHa straw) {
  const KindRow* row = row_of(implement.kind);
  require(row != nullptr, "an implement is of a known kind");
  const KiloWatt pulled = drawbar_power(pull_of(implement, *row, soil), implement.speed);
  const HaPerHour rate =
      capped_by_throughput(field_capacity(implement.speed, implement.width, implement.field_efficiency),
                           implement.throughput, straw);
  const TonnePerHour feed{rate.value() * straw.value() / 1000.0};
  return {pulled / traction_ratio(drive, ground).value(), rotary_power(*row, implement.width, feed)};
}

KiloWatt power_needed(const Implement& implement, Drive drive, Ground ground, SoilGroup soil, KgPerHa straw) {
  const PowerParts parts = power_parts(implement, drive, ground, soil, straw);
  return parts.pulled + parts.rotary;
}

LitrePerHour fuel_rate(KiloWatt used, KiloWatt rated) {
  require(rated.value() > 0.0 && used.value() >= 0.0,
          "fuel needs a rated power above 0 and a used power of 0 or more");
  return LitrePerHour{0.22 * used.value() + 0.096 * rated.value()};
}

double specific_fuel_l_per_kwh(double x) { return 2.64 * x + 3.91 - 0.203 * std::sqrt(738.0 * x + 173.0); }

LitrePerHour average_fuel(KiloWatt rated) { return LitrePerHour{0.223 * rated.value()}; }

}  // namespace aftercut::machinery
