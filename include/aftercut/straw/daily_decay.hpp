#pragma once
// The arithmetic of a day's decay of straw, for one field (N = double) or for several side by side (N =
// Lanes).

#include <array>

#include "aftercut/core/lanes.hpp"

namespace aftercut::straw {

enum class Place {
  standing,
  flat,
  pressed,
  mixed
};  ///< stubble; lying loose; rolled into wet soil; worked into the soil
inline constexpr std::size_t places = 4;

/// Straw mass by where it is and how fast it rots, oven-dry kg/ha.
template <class N>
struct PoolsOf {
  std::array<N, places> fast{};  ///< [Place] kg/ha
  std::array<N, places> slow{};
  [[nodiscard]] N at(Place p) const {
    return fast[static_cast<std::size_t>(p)] + slow[static_cast<std::size_t>(p)];
  }
  [[nodiscard]] N on_top() const { return at(Place::standing) + at(Place::flat) + at(Place::pressed); }
  [[nodiscard]] N total() const { return on_top() + at(Place::mixed); }
  friend bool operator==(const PoolsOf&, const PoolsOf&) = default;
};

/// DecaySettings made ready for the day loop.
struct DecayRates {
  std::array<double, places> slow{};        ///< [Place] per day at 25 C, moist and aired
  std::array<double, places> if_flooded{};  ///< [Place] multiplier under water
  double fast_to_slow = 1.0, per_degree = 0.0;
  double oxygen_wet_percent = 0.0;  ///< in the pores of ground that is nearly full of water
  double oxygen_flooded = 1.0;      ///< factor under water
};

/// One day's surroundings as numbers.
template <class N>
struct DecayDayOf {
  N soil_factor = 0.0;       ///< temperature factor where the straw lies, daily mean
  N air_factor = 0.0;        ///< the same of the air
  N standing_wetness = 0.0;  ///< 0 dry to 1 wet: of stubble
  N surface_wetness = 0.0;   ///< of straw lying on top
  N soil_wetness = 0.0;  ///< 0 air-dry to 1 field capacity or wetter: straw in the ground is as moist as it
  N pores_full = 0.0;    ///< share of the seedbed's pores full of water
  Mask<N> flooded{};
};

template <class N>
struct DecayStepOf {
  PoolsOf<N> pools;
  N decayed_kg_per_ha = 0.0;  ///< summed place by place, not by difference
};

inline constexpr double base_temperature_c = 25.0;  ///< at which the rates hold
inline constexpr double air_oxygen_percent = 21.0;
/// Pores full of water from which the ground runs short of air, and from which it has what
/// `oxygen_wet_percent` says. Source: OxygenWet (assumed)
inline constexpr double air_short_from = 0.80, air_short_to = 0.90;

/// Q10 factor of a temperature, 1 at 25 C.
template <class N>
[[gnu::always_inline]] inline N temperature_factor(const DecayRates& rates, const N& celsius) {
  return exp_of(N{rates.per_degree * (celsius - base_temperature_c)});
}

/// Relative decay at an oxygen content [%], straight lines between the nodes 0, 2.5, 5 and 21 %, level above.
/// Source: ParrReuszer1959 (read): 0.13, 0.70, 0.86, 1.00. The lines flatten from node to node, so the lowest
/// holds.
template <class N>
[[gnu::always_inline]] inline N oxygen_factor(const N& percent) {
  const N low = 0.13 + (0.70 - 0.13) / 2.5 * percent;
  const N middle = 0.70 + (0.86 - 0.70) / 2.5 * (percent - 2.5);
  const N high = 1.0 + (1.00 - 0.86) / 16.0 * (percent - air_oxygen_percent);
  return lesser(lesser(low, middle), lesser(high, N{1.0}));
}

/// 1 - exp(-x) of x >= 0: up to 0.15, every ordinary day, by a quotient of two polynomials (Pade, 4 over 4),
/// exact to 1e-15 of the value there; above by the library.
template <class N>
[[gnu::always_inline]] inline N lost_share(const N& x) {
  constexpr double series_to = 0.15;
  const N square = x * x;
  const N even = 1.0 + square * (3.0 / 28 + square * (1.0 / 1680));
  const N odd = x * (0.5 + square * (1.0 / 84));
  const N near = 2.0 * odd / (even + odd);
  const Mask<N> small = x <= series_to;
  return holds(small) ? near : pick(small, near, N{-expm1_of(N{-x})});
}

namespace detail {

/// Oxygen factor of straw in the ground.
template <class N>
[[gnu::always_inline]] inline N oxygen_in_ground(const DecayDayOf<N>& day, const DecayRates& r) {
  const N short_of_air =
      between(N{(day.pores_full - air_short_from) * (1.0 / (air_short_to - air_short_from))}, N{0.0}, N{1.0});
  const N percent = air_oxygen_percent + short_of_air * (r.oxygen_wet_percent - air_oxygen_percent);
  return pick(day.flooded, N{r.oxygen_flooded}, oxygen_factor(percent));
}

/// Exponents of some days by place for the slow part; they depend on the day and the place, never on the mass
/// left.
template <class N>
[[gnu::always_inline]] inline std::array<N, places> slow_exponents(const DecayDayOf<N>& day,
                                                                   const DecayRates& r, double days) {
  const N wet = 1.0;
  const N ground = day.soil_factor * oxygen_in_ground(day, r) * pick(day.flooded, wet, day.soil_wetness);
  const N on_top = day.soil_factor * pick(day.flooded, N{r.oxygen_flooded}, day.surface_wetness);
  std::array<N, places> x{day.air_factor * day.standing_wetness, on_top, ground, ground};
  for (std::size_t p = 0; p < places; ++p)
    x[p] *= pick(day.flooded, N{days * r.slow[p] * r.if_flooded[p]}, N{days * r.slow[p]});
  return x;
}

}  // namespace detail

/// Rate at 25 C times temperature (Q10), contact of the place, nitrogen, wetness and oxygen; the slow part at
/// the base rate, the fast part `fast_to_slow` times it. Standing straw feels the air's temperature, all
/// other the soil's. Under water, straw that lies, is pressed in or mixed in is wet through. No stop at
/// frost: not tested below 0 C. First-order decay over `days` (1 for a day; 0.5 for a half step).
template <class N>
[[gnu::always_inline]] inline DecayStepOf<N> decay(const PoolsOf<N>& pools, const DecayDayOf<N>& day,
                                                   const DecayRates& rates, double days = 1.0) {
  const std::array<N, places> slow = detail::slow_exponents(day, rates, days);
  DecayStepOf<N> step{.pools = pools};
  for (std::size_t p = 0; p < places; ++p) {
    const N slow_lost = pools.slow[p] * lost_share(slow[p]);
    const N fast_lost = pools.fast[p] * lost_share(N{rates.fast_to_slow * slow[p]});
    step.pools.slow[p] -= slow_lost;
    step.pools.fast[p] -= fast_lost;
    step.decayed_kg_per_ha += fast_lost + slow_lost;
  }
  return step;
}

/// Cover of the soil: 1 - exp(-k M) of straw on top, k in ha/kg. Source: Gregory1982 (form recalled), k
/// 0.0005 judgement.
template <class N>
[[gnu::always_inline]] inline N cover(const PoolsOf<N>& pools, double k_ha_per_kg = 0.0005) {
  return 1.0 - exp_of(N{-k_ha_per_kg * pools.on_top()});
}

}  // namespace aftercut::straw
