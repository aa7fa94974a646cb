#pragma once
// How straw and ground of one field fare between harvest and planting.

namespace aftercut::plan {

inline constexpr int days_between_winter_mornings = 7;

/// One morning of one year.
struct WinterMorning {
  int day = 0;                   ///< season day
  double straw_kg_per_ha = 0.0;  ///< on top and in the ground
  double pores_full = 0.0;       ///< share of the seedbed's pores that holds water
  bool under_water = false;      ///< deeper than puddles
  friend bool operator==(const WinterMorning&, const WinterMorning&) = default;
};

}  // namespace aftercut::plan
