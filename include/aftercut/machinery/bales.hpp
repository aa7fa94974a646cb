#pragma once
// Bales: how many, how heavy, how many loads, how much twine.

#include "aftercut/core/quantity.hpp"

namespace aftercut::machinery {

/// Oven-dry share of a bale as sold, at 12 % moisture. Source: common practice
inline constexpr double bale_dry_share = 0.88;

/// A large rectangular bale of rice straw. Source: Blunk2003 (read) for size and mass.
struct BaleSettings {
  Metre length{2.4}, width{1.2}, height{0.9};
  Kilogram mass{400.0};  ///< as baled
  int per_load = 36;     ///< bales on a load. Source: BaleLoad (read)
  int strands = 6;       ///< of twine around a bale. Source: BaleTwine (recalled)
  /// Share of what is stacked that is lost before it is sold; 0: sold off the field.
  double storage_loss = 0.0;
};

struct BaleLoads {
  int bales = 0;
  int loads = 0;
  Metre twine;
};

/// Bales of one field: its straw as baled over a bale's mass, the last one begun counted whole.
int bales_of(Kilogram as_baled, const BaleSettings& settings);
/// With the loads they make, the last one begun counted whole, and their twine.
BaleLoads loads_of(int bales, const BaleSettings& settings);

double bale_volume_m3(const BaleSettings& settings);
/// As baled [kg/m3].
double bale_density_kg_m3(const BaleSettings& settings);
/// Around the long way with half a metre for the knot, each strand. Source: BaleTwine (recalled; geometry)
Metre twine_of_a_bale(const BaleSettings& settings);

}  // namespace aftercut::machinery
