#pragma once
// The daily water balance of two layers and what stands on top. Depths in mm; one step is one day.

#include "aftercut/soil/profile.hpp"

namespace aftercut::soil {

struct WaterState {
  double seedbed_mm = 0.0;  ///< water in the worked layer
  double below_mm = 0.0;
  double ponded_mm = 0.0;
};

/// What one day brings and how the field stands that day.
struct WaterDay {
  double rain_mm = 0.0;
  double et0_mm = 0.0;
  double water_in_mm = 0.0;  ///< let in from the canal
  double cover = 0.0;        ///< share of the soil under straw, 0 to 1
  double board_height_mm =
      0.0;              ///< ponding possible up to this; 0: boards out, water leaves at the soil's drain rate
  double opened = 0.0;  ///< 0 closed ground, 1 freshly opened by tillage: dries faster, takes up more
  double rutted_share = 0.0;  ///< of the area, holds `rut_depth_mm` more water that does not drain off
  double rut_depth_mm = 0.0;
};

/// Each flux is added up where it happens; the balance is checked against the change of the three stores.
struct WaterFluxes {
  double rain_mm = 0.0, water_in_mm = 0.0;  // in
  double evaporation_mm = 0.0, percolation_mm = 0.0,
         spill_mm = 0.0;  // out; spill is all that leaves over the surface
};

struct WaterStep {
  WaterState state;
  WaterFluxes fluxes;
};

/// Order of a day: rain and canal water in; infiltration, seedbed first, up to saturation; spill above the
/// boards or surface drainage of what is left on top; evaporation (open water, or FAO-56 two-stage bare soil
/// damped by cover); drainage of what is above field capacity; percolation; capillary supply from wet ground
/// below to a drier seedbed. Infiltration comes before spill, else rain would run off dry ground. No water
/// rises from under the two layers. Two-stage evaporation: Source: Allen1998 ch. 7 (recalled). Residue: 5 %
/// less per 10 % cover, Allen1998 ch. 11 (recalled). Throws InternalError when the balance does not close to
/// 1e-9 of throughput, or on a negative or missing (NaN) input.
WaterStep next(const Profile& profile, const WaterState& state, const WaterDay& day);

/// rain + water in - out - change of the stores [mm]; 0 when the balance closes.
double imbalance(const WaterState& before, const WaterStep& step);
/// Throws InternalError when |imbalance| is above 1e-9 of what was there or came in (at least 1 mm). `next`
/// calls it.
void require_balanced(const WaterState& before, const WaterStep& step);

WaterState drained_state(const Profile& profile);  ///< at field capacity, nothing on top
double seedbed_content(const Profile& profile, const WaterState& state);  ///< m3/m3
/// Water that both layers still take up to saturation [mm].
double saturation_deficit_mm(const Profile& profile, const WaterState& state);
/// Share of the seedbed's pores that is full of water, 0 to 1.
double pores_full(const Profile& profile, const WaterState& state);
/// Wetness for decay: 0 at half the wilting content (air-dry), 1 at field capacity and above.
double decay_wetness(const Profile& profile, const WaterState& state);
/// No water on top and the seedbed drier than the wet tillage limit. `slow_share` (0 to 1): judged where the
/// ground has lost so much less of its water below field capacity than the mean.
bool workable(const Profile& profile, const WaterState& state, double slow_share = 0.0);

enum class LoadClass { light, heavy, tracked };  ///< tractor alone or chopper; loaded wagon or baler; crawler

/// The lowest rating cone index at which this class of load may drive [kPa], a setting. Source: TrafficLimits
/// (common practice).
struct TrafficLimits {
  double light_kpa = 450.0, heavy_kpa = 700.0, tracked_kpa = 300.0;
};

/// No more than 10 mm on top and the upper ground strong enough for the class.
bool trafficable(const Profile& profile, const WaterState& state, LoadClass load,
                 const TrafficLimits& limits);

/// Seedbed contents [m3/m3] up to which each class may drive: the limits of a soil, worked out once for the
/// day loop.
struct TrafficContents {
  double light = 0.0, heavy = 0.0, tracked = 0.0;
};
TrafficContents traffic_contents(const Profile& profile, const TrafficLimits& limits);
/// The same answer as with the limits themselves, without a logarithm.
bool trafficable(const Profile& profile, const WaterState& state, LoadClass load,
                 const TrafficContents& contents);

}  // namespace aftercut::soil
