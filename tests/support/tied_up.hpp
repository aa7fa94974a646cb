#pragma once
// Nitrogen that rotting straw ties up, as the field study of buried straw measured it.

#include <algorithm>
#include <array>

#include "aftercut/straw/nitrogen.hpp"
#include "aftercut/straw/pools.hpp"

namespace aftercut::test {

/// Nitrogen that straw and what rots it held above what the straw brought, three months after burial [kg/ha].
/// Source: BrownDickey1970 (read in the abstract).
struct TiedUp {
  const char* name;
  double straw_kg_per_ha, measured_kg_per_ha;
};
inline constexpr std::array<TiedUp, 5> tied_up_measured{
    {{"nitrogen tied up by 1121 kg/ha of buried straw [kg/ha]", 1121.0, 1.6},
     {"nitrogen tied up by 2242 kg/ha of buried straw [kg/ha]", 2242.0, 2.9},
     {"nitrogen tied up by 3363 kg/ha of buried straw [kg/ha]", 3363.0, 2.8},
     {"nitrogen tied up by 4484 kg/ha of buried straw [kg/ha]", 4484.0, 2.9},
     {"nitrogen tied up by 6732 kg/ha of buried straw [kg/ha]", 6732.0, 5.3}}};

/// The same of the model: the most over 90 days of buried, moist straw at 15 C (the study's weather is not at
/// hand).
inline double most_tied_up(double straw_kg_per_ha) {
  const straw::DecaySettings settings;
  const straw::NitrogenSettings nitrogen;
  const straw::DecayRates rates = straw::rates_of(settings);
  straw::Pools pools = straw::move(straw::fresh(straw_kg_per_ha, 0.0, settings), {.bury = 1.0});
  const double factor = straw::temperature_factor(rates, 15.0);
  straw::NitrogenStateOf<double> n{.in_straw = nitrogen.content_kg_per_kg * straw_kg_per_ha};
  double most = 0.0;
  for (int d = 0; d < 90; ++d) {
    const straw::DecayStep rot = straw::decay<double>(
        pools, {.soil_factor = factor, .air_factor = factor, .soil_wetness = 1.0, .pores_full = 0.7}, rates);
    pools = rot.pools;
    n = straw::live_nitrogen(n, rot.decayed_kg_per_ha, factor, nitrogen).state;
    most = std::max(most, n.in_straw + n.in_microbes - nitrogen.content_kg_per_kg * straw_kg_per_ha);
  }
  return most;
}

}  // namespace aftercut::test
