#pragma once
// Straw mass by where it is and how fast it rots, oven-dry kg/ha, and its daily decay.

#include <array>

namespace aftercut::straw {

enum class Place {
  standing,
  flat,
  pressed,
  mixed
};  ///< stubble; lying loose; rolled into wet soil; worked into the soil
inline constexpr std::size_t places = 4;

struct Pools {
  std::array<double, places> fast{};  ///< [Place] kg/ha
  std::array<double, places> slow{};
  [[nodiscard]] double at(Place p) const {
    return fast[static_cast<std::size_t>(p)] + slow[static_cast<std::size_t>(p)];
  }
  [[nodiscard]] double total() const;
  [[nodiscard]] double on_top() const { return at(Place::standing) + at(Place::flat) + at(Place::pressed); }
  friend bool operator==(const Pools&, const Pools&) = default;
};

struct DecaySettings {
  double fast_share = 0.35;              ///< of fresh straw. Source: DecayTrial (judgement, 0.3 to 0.4)
  double fast_to_slow_rate = 4.0;        ///< Source: DecayTrial (judgement)
  double slow_rate_25c_per_day = 0.012;  ///< mixed, moist, drained, 25 C. Source: DecayTrial (fitted)
  double q10 = 1.6;
  std::array<double, places> contact{0.08, 0.15, 0.6, 1.0};  ///< by Place. Source: StrawContact (assumed)
  double oxygen_wet =
      0.7;  ///< more than 90 % of pores full; falls to this from 1 at 80 %. Source: OxygenWet (assumed)
  double oxygen_flooded = 0.7;  ///< straw in or on flooded soil, net. Source: OxygenWet (assumed)
  double nitrogen_g_per_kg =
      5.9;  ///< of fresh straw; the rates hold at 5.9. Source: Witt1999 (read), product by us
  /// What feeding birds do to the rates of flooded straw, lying or standing and pressed in; 1: no birds.
  double waterfowl_loose = 1.0, waterfowl_pressed = 1.0;
};

/// Loss of flooded straw with many ducks over the loss without, loose and rolled in, as multipliers of the
/// rate; the source gives them for the loss of a winter. Source: Bird2000 (read): 33 mallards/ha, 1 to 18
/// February.
inline constexpr double duck_loss_loose = 1.78, duck_loss_pressed = 1.18;

/// Decay with more or less nitrogen in the straw, 1 at 5.9 g/kg.
/// Source: DouglasRickman1992 (structure read, constants recalled): 0.57 + 0.126 N.
double nitrogen_factor(double nitrogen_g_per_kg);

/// Settings made ready for the day loop.
struct DecayRates {
  std::array<double, places> slow{};        ///< [Place] per day at 25 C, moist and aired
  std::array<double, places> if_flooded{};  ///< [Place] multiplier under water
  double fast_to_slow = 1.0, per_degree = 0.0;
  double oxygen_wet = 1.0, oxygen_flooded = 1.0;
};
DecayRates rates_of(const DecaySettings& s);
/// Q10 factor of a temperature, 1 at 25 C.
double temperature_factor(const DecayRates& rates, double celsius);

/// Pools right after harvest: `standing_share` stands, the rest lies flat.
Pools fresh(double load_kg_per_ha, double standing_share, const DecaySettings& s);

/// One day's surroundings as numbers.
struct DecayDay {
  double soil_factor = 0.0;      ///< temperature_factor where the straw lies, daily mean
  double air_factor = 0.0;       ///< the same of the air
  double surface_wetness = 0.0;  ///< 0 dry to 1 wet: of straw on top
  double soil_wetness = 0.0;     ///< 0 air-dry to 1 field capacity or wetter
  double pores_full = 0.0;       ///< share of the seedbed's pores full of water
  bool flooded = false;
};

struct DecayStep {
  Pools pools;
  double decayed_kg_per_ha = 0.0;  ///< summed place by place, not by difference
};

/// Rate at 25 C times temperature (Q10), contact of the place, nitrogen, wetness and oxygen; the slow part at
/// the base rate, the fast part `fast_to_slow_rate` times it. Standing straw feels the air's temperature, all
/// other the soil's. Under water, straw that lies, is pressed in or mixed in is wet through. No stop at
/// frost: not tested below 0 C. First-order decay over `days` (1 for a day; 0.5 for a half step).
DecayStep decay(const Pools& pools, const DecayDay& day, const DecayRates& rates, double days = 1.0);

/// What one implement does: shares of a pool that move, 0 to 1. Applied in the order flatten, press, bury,
/// resurface.
struct Transfer {
  double flatten = 0.0;    ///< standing -> flat
  double press = 0.0;      ///< flat (after flattening) -> pressed
  double bury = 0.0;       ///< flat and pressed -> mixed
  double resurface = 0.0;  ///< mixed -> flat
};
Pools move(const Pools& pools, const Transfer& t);

struct Removal {
  Pools pools;
  double removed_kg_per_ha = 0.0;
};
/// Takes the share of the flat straw (baling), or of flat and standing (burning).
Removal remove(const Pools& pools, double share_of_flat, double share_of_standing);

/// Cover of the soil: 1 - exp(-k M) of straw on top, k in ha/kg. Source: Gregory1982 (form recalled), k
/// 0.0005 judgement.
double cover(const Pools& pools, double k_ha_per_kg = 0.0005);

/// Nutrients in dry straw [kg per kg]. Source: Witt1999 and Dobermann2002 (read), product by us.
struct Nutrients {
  double n = 0.0059, p = 0.00085, k = 0.0120;
};
/// Nutrients in this much dry straw [kg/ha]; within 30 % in the field.
struct NutrientMass {
  double n_kg_per_ha = 0.0, p_kg_per_ha = 0.0, k_kg_per_ha = 0.0;
};
NutrientMass nutrients_in(double straw_kg_per_ha, const Nutrients& nutrients);

/// Share of temperature optimum, USDA Handbook 703 form (an alternative to Q10). Source: Renard1997 ch. 5
/// (recalled).
double handbook_temperature_factor(double t_c, double optimum_c = 32.0, double shift_c = 8.0);
/// Relative decay at an oxygen content [%]. Source: ParrReuszer1959 (read): nodes 0, 2.5, 5, 21 %.
double oxygen_factor(double oxygen_percent);
/// Remaining share by degree-days. Source: DouglasRickman1992 (structure read, constants recalled).
double degree_day_remaining(double n_g_per_kg, double water_factor, double degree_days);

}  // namespace aftercut::straw
