#pragma once
// The daily water of one field: its balance, and whether the ground can be worked and driven on. Depths in
// mm.

#include "aftercut/soil/daily_water.hpp"

namespace aftercut::soil {

using WaterState = WaterStateOf<double>;
using WaterDay = WaterDayOf<double>;
using WaterFluxes = WaterFluxesOf<double>;
using WaterStep = WaterStepOf<double>;

/// One day of one field, as live_water() has it, or the part `days` of a day (above 0, at most 1): then `day`
/// holds the rain and the demand of that part. Throws InternalError on a negative or missing (NaN) input too.
WaterStep next(const Profile& profile, const WaterState& state, const WaterDay& day, double days = 1.0);

/// Both layers full, this much on top.
WaterState saturated_state(const Profile& profile, double ponded_mm);
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

/// The seedbed's mean content is below the dry limit: hard clods, which a finishing pass does not break.
bool too_dry(const Profile& profile, const WaterState& state);
/// How many times harder the ground pulls at a tillage tool than at its easiest: 1 from the content of least
/// draft up, growing in a straight line to 1 + the soil's gain at wilting and below. Source: DryDraft
/// (assumed)
double draft_factor(const Profile& profile, const WaterState& state);

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
