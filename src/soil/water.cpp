#include "aftercut/soil/water.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::soil {
namespace {

constexpr double drivable_pond_mm = 10.0;  // most water on top to drive in. Source: DrivablePond (assumed)

double field_capacity_mm(const Profile& p) { return p.field_capacity * p.seedbed_depth_mm; }

void require_sound(const WaterDay& day) {
  require(day.rain_mm >= 0.0 && day.et0_mm >= 0.0 && day.water_in_mm >= 0.0 && day.board_height_mm >= 0.0,
          "a day's water is not negative");
  require(day.cover >= 0.0 && day.cover <= 1.0 && day.opened >= 0.0 && day.opened <= 1.0 &&
              day.rutted_share >= 0.0 && day.rutted_share <= 1.0 && day.rut_depth_mm >= 0.0,
          "cover, opened and rutted are shares");
}

bool drier_than(const Profile& profile, const WaterState& state, double content) {
  return state.ponded_mm <= drivable_pond_mm && seedbed_content(profile, state) <= content;
}

}  // namespace

GroundOf<double> ground_of(const Profile& p, double slow_share) {
  return {.seedbed_full = p.saturation * p.seedbed_depth_mm,
          .seedbed_drained = field_capacity_mm(p),
          .seedbed_least = field_capacity_mm(p) - p.total_evaporable_mm,
          .below_full = p.saturation * p.below_depth_mm,
          .below_drained = p.field_capacity * p.below_depth_mm,
          .readily_evaporable = p.readily_evaporable_mm,
          .total_evaporable = p.total_evaporable_mm,
          .percolation_per_day = p.input.percolation_mm_per_day,
          .surface_drain_per_day = p.input.surface_drain_mm_per_day,
          .capillary_per_day = p.input.capillary_mm_per_day,
          .wet_limit = p.wet_limit * p.seedbed_depth_mm,
          .air_dry = 0.5 * p.wilting * p.seedbed_depth_mm,
          .slow_share = slow_share};
}

StepLength step_length(double days) {
  require(days > 0.0, "a step is longer than nothing");
  const double left_by_day = 1.0 - StepLength{}.macropore_share;
  return {.days = days, .macropore_share = 1.0 - std::pow(left_by_day, days)};
}

WaterStep next(const Profile& profile, const WaterState& state, const WaterDay& day, double days) {
  require_sound(day);
  return live_water(ground_of(profile), state, day, step_length(days));
}

WaterState saturated_state(const Profile& profile, double ponded_mm) {
  return {.seedbed_mm = profile.saturation * profile.seedbed_depth_mm,
          .below_mm = profile.saturation * profile.below_depth_mm,
          .ponded_mm = ponded_mm};
}

WaterState drained_state(const Profile& profile) {
  return {.seedbed_mm = field_capacity_mm(profile),
          .below_mm = profile.field_capacity * profile.below_depth_mm,
          .ponded_mm = 0.0};
}

double seedbed_content(const Profile& profile, const WaterState& state) {
  return state.seedbed_mm / profile.seedbed_depth_mm;
}

double saturation_deficit_mm(const Profile& profile, const WaterState& state) {
  return std::max(0.0, profile.saturation * profile.seedbed_depth_mm - state.seedbed_mm) +
         std::max(0.0, profile.saturation * profile.below_depth_mm - state.below_mm);
}

double pores_full(const Profile& profile, const WaterState& state) {
  return pores_full(ground_of(profile), state);
}

double decay_wetness(const Profile& profile, const WaterState& state) {
  return decay_wetness(ground_of(profile), state);
}

bool workable(const Profile& profile, const WaterState& state, double slow_share) {
  return workable(ground_of(profile, slow_share), state);
}

bool too_dry(const Profile& profile, const WaterState& state) {
  return seedbed_content(profile, state) < profile.dry_limit;
}

double draft_factor(const Profile& profile, const WaterState& state) {
  const double content = seedbed_content(profile, state);
  if (content >= profile.least_draft) return 1.0;
  const double gain = profile.input.dry_draft_gain;
  if (content <= profile.wilting) return 1.0 + gain;
  return 1.0 + gain * (profile.least_draft - content) / (profile.least_draft - profile.wilting);
}

bool trafficable(const Profile& profile, const WaterState& state, LoadClass load,
                 const TrafficLimits& limits) {
  const double limit = load == LoadClass::light   ? limits.light_kpa
                       : load == LoadClass::heavy ? limits.heavy_kpa
                                                  : limits.tracked_kpa;
  return drier_than(profile, state, content_for_cone_index(profile, KiloPascal{limit}));
}

TrafficContents traffic_contents(const Profile& profile, const TrafficLimits& limits) {
  return {.light = content_for_cone_index(profile, KiloPascal{limits.light_kpa}),
          .heavy = content_for_cone_index(profile, KiloPascal{limits.heavy_kpa}),
          .tracked = content_for_cone_index(profile, KiloPascal{limits.tracked_kpa})};
}

bool trafficable(const Profile& profile, const WaterState& state, LoadClass load,
                 const TrafficContents& contents) {
  return drier_than(profile, state,
                    load == LoadClass::light   ? contents.light
                    : load == LoadClass::heavy ? contents.heavy
                                               : contents.tracked);
}

}  // namespace aftercut::soil
