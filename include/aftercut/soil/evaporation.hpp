#pragma once
// The steps of FAO-56 bare-soil evaporation that the daily balance uses. Symbols of the source: De depletion,
// REW readily evaporable, TEW total evaporable water [mm]; Kr reduction, Ke soil evaporation, Kcb crop and
// Kcmax largest coefficient; few the wet and bare share of the ground. Source: Allen1998 ch. 7 (recalled;
// numbers read second-hand).

#include "aftercut/core/lanes.hpp"

namespace aftercut::soil {

/// TEW = 1000 (FC - 0.5 WP) Ze [mm]; contents m3/m3, Ze in m. Eq. 73.
double total_evaporable_mm(double field_capacity, double wilting, double depth_m);
/// Kr: 1 up to REW, then falling in a straight line to 0 at TEW. Eq. 74.
template <class N>
N evaporation_reduction(const N& depletion_mm, const N& readily_mm, const N& total_mm) {
  const N falling = (total_mm - depletion_mm) / (total_mm - readily_mm);
  return pick(depletion_mm <= readily_mm, N{1.0}, pick(depletion_mm >= total_mm, N{0.0}, falling));
}
/// Ke = min(Kr (Kcmax - Kcb), few Kcmax). Eq. 71.
template <class N>
N evaporation_coefficient(const N& kr, double kcb, double kc_max, double few = 1.0) {
  return lesser(N{kr * (kc_max - kcb)}, N{few * kc_max});
}
/// De after a day: clamp(De - wetting + evaporation from the wet share, 0, TEW) [mm]. Eq. 77, without
/// drainage and irrigation.
double next_depletion(double depletion_mm, double wetting_mm, double evaporation_mm, double total_mm);
/// What cover (0 to 1) leaves of bare-soil evaporation: 5 % less per 10 % of cover. Source: Allen1998 ch. 11
/// (recalled).
template <class N>
N cover_factor(const N& cover) {
  return 1.0 - 0.5 * cover;
}

/// Largest and basal coefficient of ground without a crop, and the coefficient of shallow open water.
/// Source: Allen1998 ch. 6 and 7 (recalled).
inline constexpr double kc_max_bare = 1.2;
inline constexpr double kcb_bare = 0.15;
inline constexpr double kc_open_water = 1.05;

/// What freshly tilled ground evaporates above closed ground. Source: OpenedGround (assumed)
inline constexpr double opened_gain = 0.15;

/// Evaporation of a day from the seedbed of uncropped ground [mm], before the limit of what is there:
/// `opened` (0 to 1) adds up to `opened_gain`.
template <class N>
N soil_evaporation(const N& et0_mm, const N& depletion_mm, const N& readily_mm, const N& total_mm,
                   const N& cover, const N& opened) {
  const N kr = evaporation_reduction(depletion_mm, readily_mm, total_mm);
  const N ke = evaporation_coefficient(kr, kcb_bare, kc_max_bare);
  return ke * et0_mm * cover_factor(cover) * (1.0 + opened_gain * opened);
}

}  // namespace aftercut::soil
