#include "aftercut/soil/evaporation.hpp"

#include <algorithm>

namespace aftercut::soil {
namespace {

constexpr double opened_gain =
    0.15;  // of evaporation from freshly tilled ground. Source: OpenedGround (assumed)

}  // namespace

double total_evaporable_mm(double field_capacity, double wilting, double depth_m) {
  return 1000.0 * (field_capacity - 0.5 * wilting) * depth_m;
}

double evaporation_reduction(double depletion_mm, double readily_mm, double total_mm) {
  if (depletion_mm <= readily_mm) return 1.0;
  if (depletion_mm >= total_mm) return 0.0;
  return (total_mm - depletion_mm) / (total_mm - readily_mm);
}

double evaporation_coefficient(double kr, double kcb, double kc_max, double few) {
  return std::min(kr * (kc_max - kcb), few * kc_max);
}

double next_depletion(double depletion_mm, double wetting_mm, double evaporation_mm, double total_mm) {
  return std::clamp(std::max(0.0, depletion_mm - wetting_mm) + evaporation_mm, 0.0, total_mm);
}

double cover_factor(double cover) { return 1.0 - 0.5 * cover; }

double soil_evaporation(double et0_mm, double depletion_mm, double readily_mm, double total_mm, double cover,
                        double opened) {
  const double kr = evaporation_reduction(depletion_mm, readily_mm, total_mm);
  const double ke = evaporation_coefficient(kr, kcb_bare, kc_max_bare);
  return ke * et0_mm * cover_factor(cover) * (1.0 + opened_gain * opened);
}

}  // namespace aftercut::soil
