#pragma once
// The arithmetic of a day's water in two layers and on top, for one field (N = double) or for several side by
// side (N = Lanes). Depths in mm. `next` in water.hpp is the same step with its inputs checked.

#include "aftercut/core/require.hpp"
#include "aftercut/soil/evaporation.hpp"
#include "aftercut/soil/profile.hpp"

namespace aftercut::soil {

template <class N>
struct WaterStateOf {
  N seedbed_mm = 0.0;  ///< water in the worked layer
  N below_mm = 0.0;
  N ponded_mm = 0.0;
};

/// What one day brings and how the field stands that day.
template <class N>
struct WaterDayOf {
  N rain_mm = 0.0;
  N et0_mm = 0.0;
  N water_in_mm = 0.0;  ///< let in from the canal
  N cover = 0.0;        ///< share of the soil under straw, 0 to 1
  N board_height_mm =
      0.0;         ///< ponding possible up to this; 0: boards out, water leaves at the soil's drain rate
  N opened = 0.0;  ///< 0 closed ground, 1 freshly opened by tillage: dries faster, takes up more
  N rutted_share = 0.0;  ///< of the area, holds `rut_depth_mm` more water that does not drain off
  N rut_depth_mm = 0.0;
};

/// Each flux is added up where it happens; the balance is checked against the change of the three stores.
template <class N>
struct WaterFluxesOf {
  N rain_mm = 0.0, water_in_mm = 0.0;  // in
  N evaporation_mm = 0.0, percolation_mm = 0.0,
    spill_mm = 0.0;  // out; spill is all that leaves over the surface
};

template <class N>
struct WaterStepOf {
  WaterStateOf<N> state;
  WaterFluxesOf<N> fluxes;
};

/// The numbers of a Profile that the day needs, as depths of water.
template <class N>
struct GroundOf {
  N seedbed_full, seedbed_drained, seedbed_least;  ///< saturation, field capacity, driest by evaporation
  N below_full, below_drained;
  N readily_evaporable, total_evaporable;
  N percolation_per_day, surface_drain_per_day, capillary_per_day;
  N wet_limit;   ///< seedbed workable below this
  N air_dry;     ///< no decay of straw in the ground
  N slow_share;  ///< of the field: see workable()
};
GroundOf<double> ground_of(const Profile& profile, double slow_share = 0.0);

/// A step of the balance: a day, or a part of one with that part of its rain and demand.
struct StepLength {
  double days = 1.0;
  double macropore_share =
      0.5;  ///< of the seedbed's water above field capacity. Source: Macropores (assumed)
};
/// `days` above 0. The macropore share of a part of a day leaves over a whole day what the day's share
/// leaves.
StepLength step_length(double days);

inline constexpr double opened_storage_mm =
    8.0;  ///< between clods of freshly tilled ground. Source: OpenedGround (assumed)
inline constexpr double balance_tolerance = 1e-9;  ///< share of throughput

namespace detail {

/// A state after something left it, and how much that was.
template <class N>
struct LeftOf {
  WaterStateOf<N> state;
  N mm;
};

template <class N>
[[gnu::always_inline]] inline WaterStateOf<N> infiltrate(const GroundOf<N>& g, WaterStateOf<N> s) {
  const N none = 0.0;
  const N to_seedbed = lesser(s.ponded_mm, greater(none, N{g.seedbed_full - s.seedbed_mm}));
  s.seedbed_mm += to_seedbed;
  s.ponded_mm -= to_seedbed;
  const N to_below = lesser(s.ponded_mm, greater(none, N{g.below_full - s.below_mm}));
  s.below_mm += to_below;
  s.ponded_mm -= to_below;
  return s;
}

/// Over the boards at once; with the boards out at the soil's drain rate, down to what ruts and clods hold.
template <class N>
[[gnu::always_inline]] inline LeftOf<N> leave_over_surface(const GroundOf<N>& g, WaterStateOf<N> s,
                                                           const WaterDayOf<N>& day, double days) {
  const N held = day.rutted_share * day.rut_depth_mm + day.opened * opened_storage_mm;
  const N free = greater(N{0.0}, N{s.ponded_mm - greater(day.board_height_mm, held)});
  const N gone = pick(day.board_height_mm > 0.0, free, lesser(free, N{g.surface_drain_per_day * days}));
  s.ponded_mm -= gone;
  return {s, gone};
}

/// From open water while it lasts; for the rest of the day from the seedbed.
template <class N>
[[gnu::always_inline]] inline LeftOf<N> evaporate(const GroundOf<N>& g, WaterStateOf<N> s,
                                                  const WaterDayOf<N>& day) {
  const N none = 0.0, one = 1.0;
  const N open_water = kc_open_water * day.et0_mm;
  const N from_pond = lesser(s.ponded_mm, open_water);
  const N rest_of_day = pick(from_pond > none, N{one - from_pond / open_water}, one);
  s.ponded_mm -= from_pond;
  const N depletion = greater(none, N{g.seedbed_drained - s.seedbed_mm});
  const N wanted = rest_of_day * soil_evaporation(day.et0_mm, depletion, g.readily_evaporable,
                                                  g.total_evaporable, day.cover, day.opened);
  const N from_soil = lesser(wanted, greater(none, N{s.seedbed_mm - g.seedbed_least}));
  s.seedbed_mm -= from_soil;
  return {s, from_pond + from_soil};
}

template <class N>
[[gnu::always_inline]] inline WaterStateOf<N> drain_seedbed(const GroundOf<N>& g, WaterStateOf<N> s,
                                                            double macropore_share) {
  const N none = 0.0;
  const N above = greater(none, N{s.seedbed_mm - g.seedbed_drained});
  const N room = greater(none, N{g.below_full - s.below_mm});
  const N down = lesser(N{macropore_share * above}, room);
  s.seedbed_mm -= down;
  s.below_mm += down;
  return s;
}

/// Through the ground from standing water; what the pond does not give comes from below, down to field
/// capacity.
template <class N>
[[gnu::always_inline]] inline LeftOf<N> percolate(const GroundOf<N>& g, WaterStateOf<N> s, double days) {
  const N most = g.percolation_per_day * days;
  const N from_pond = lesser(s.ponded_mm, most);
  const N above = greater(N{0.0}, N{s.below_mm - g.below_drained});
  const N from_below = lesser(N{most - from_pond}, above);
  s.ponded_mm -= from_pond;
  s.below_mm -= from_below;
  return {s, from_pond + from_below};
}

/// Ground below that is wetter than field capacity makes good what the seedbed lacks of it, at the soil's
/// capillary rate.
template <class N>
[[gnu::always_inline]] inline WaterStateOf<N> rise(const GroundOf<N>& g, WaterStateOf<N> s, double days) {
  const N none = 0.0;
  const N above = greater(none, N{s.below_mm - g.below_drained});
  const N lacking = greater(none, N{g.seedbed_drained - s.seedbed_mm});
  const N up = lesser(lesser(N{g.capillary_per_day * days}, above), lacking);
  s.below_mm -= up;
  s.seedbed_mm += up;
  return s;
}

template <class N>
[[gnu::always_inline]] inline N total(const WaterStateOf<N>& s) {
  return s.seedbed_mm + s.below_mm + s.ponded_mm;
}

}  // namespace detail

/// rain + water in - out - change of the stores [mm]; 0 when the balance closes.
template <class N>
[[gnu::always_inline]] inline N imbalance(const WaterStateOf<N>& before, const WaterStepOf<N>& step) {
  const WaterFluxesOf<N>& f = step.fluxes;
  return f.rain_mm + f.water_in_mm - f.evaporation_mm - f.percolation_mm - f.spill_mm -
         (detail::total(step.state) - detail::total(before));
}

/// Throws InternalError when |imbalance| is above 1e-9 of what was there or came in (at least 1 mm).
template <class N>
[[gnu::always_inline]] inline void require_balanced(const WaterStateOf<N>& before,
                                                    const WaterStepOf<N>& step) {
  const N throughput = detail::total(before) + step.fluxes.rain_mm + step.fluxes.water_in_mm;
  require(holds(magnitude(imbalance(before, step)) <= balance_tolerance * greater(N{1.0}, throughput)),
          "the day's water balance closes");
}

/// Order of a day: rain and canal water in; infiltration, seedbed first, up to saturation; spill above the
/// boards or surface drainage of what is left on top; evaporation (open water, or FAO-56 two-stage bare soil
/// damped by cover); drainage of what is above field capacity; percolation; capillary supply from wet ground
/// below to a drier seedbed. Infiltration comes before spill, else rain would run off dry ground. No water
/// rises from under the two layers. Two-stage evaporation: Source: Allen1998 ch. 7 (recalled). Residue: 5 %
/// less per 10 % cover, Allen1998 ch. 11 (recalled). Throws InternalError when the balance does not close to
/// 1e-9 of throughput.
template <class N>
[[gnu::always_inline]] inline WaterStepOf<N> live_water(const GroundOf<N>& ground,
                                                        const WaterStateOf<N>& before,
                                                        const WaterDayOf<N>& day, const StepLength& step) {
  WaterStateOf<N> s = before;
  s.ponded_mm += day.rain_mm + day.water_in_mm;
  const auto spilled = detail::leave_over_surface(ground, detail::infiltrate(ground, s), day, step.days);
  const auto evaporated = detail::evaporate(ground, spilled.state, day);
  const auto percolated = detail::percolate(
      ground, detail::drain_seedbed(ground, evaporated.state, step.macropore_share), step.days);
  const WaterStepOf<N> after{detail::rise(ground, percolated.state, step.days),
                             {.rain_mm = day.rain_mm,
                              .water_in_mm = day.water_in_mm,
                              .evaporation_mm = evaporated.mm,
                              .percolation_mm = percolated.mm,
                              .spill_mm = spilled.mm}};
  require_balanced(before, after);
  return after;
}

/// No water on top and the seedbed drier than the wet tillage limit, where the ground has lost `slow_share`
/// (0 to 1) less of its water below field capacity than the mean.
template <class N>
[[gnu::always_inline]] inline Mask<N> workable(const GroundOf<N>& g, const WaterStateOf<N>& s) {
  const N slowest = s.seedbed_mm + g.slow_share * greater(N{0.0}, N{g.seedbed_drained - s.seedbed_mm});
  return s.ponded_mm <= 0.0 && slowest < g.wet_limit;
}

/// Share of the seedbed's pores that is full of water, 0 to 1.
template <class N>
[[gnu::always_inline]] inline N pores_full(const GroundOf<N>& g, const WaterStateOf<N>& s) {
  return between(N{s.seedbed_mm / g.seedbed_full}, N{0.0}, N{1.0});
}

/// Wetness for decay: 0 at half the wilting content (air-dry), 1 at field capacity and above.
template <class N>
[[gnu::always_inline]] inline N decay_wetness(const GroundOf<N>& g, const WaterStateOf<N>& s) {
  return between(N{(s.seedbed_mm - g.air_dry) / (g.seedbed_drained - g.air_dry)}, N{0.0}, N{1.0});
}

}  // namespace aftercut::soil
