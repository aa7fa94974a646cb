#pragma once
// Straw by where it is and how fast it rots: what lays it, moves it and takes it off. Its daily decay:
// daily_decay.hpp.

#include "aftercut/straw/daily_decay.hpp"

namespace aftercut::straw {

using Pools = PoolsOf<double>;
using DecayDay = DecayDayOf<double>;
using DecayStep = DecayStepOf<double>;

struct DecaySettings {
  double fast_share = 0.35;              ///< of fresh straw. Source: DecayTrial (judgement, 0.3 to 0.4)
  double fast_to_slow_rate = 4.0;        ///< Source: DecayTrial (judgement)
  double slow_rate_25c_per_day = 0.012;  ///< mixed, moist, drained, 25 C. Source: DecayTrial (fitted)
  double q10 = 1.6;
  std::array<double, places> contact{0.08, 0.15, 0.6, 1.0};  ///< by Place. Source: StrawContact (assumed)
  /// Oxygen in the air of the ground with more than 90 % of its pores full, falling to this from 21 at 80 %;
  /// and what decay under water is like, net [%]. Source: OxygenWet (assumed): 2.5 % is a factor of 0.70
  double oxygen_wet_percent = 2.5, oxygen_flooded_percent = 2.5;
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

DecayRates rates_of(const DecaySettings& s);
/// Pools right after harvest: `standing_share` stands, the rest lies flat.
Pools fresh(double load_kg_per_ha, double standing_share, const DecaySettings& s);

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
/// Remaining share by degree-days. Source: DouglasRickman1992 (structure read, constants recalled).
double degree_day_remaining(double n_g_per_kg, double water_factor, double degree_days);

}  // namespace aftercut::straw
