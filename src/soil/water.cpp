#include "aftercut/soil/water.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/soil/evaporation.hpp"

namespace aftercut::soil {
namespace {

constexpr double macropore_share_per_day =
    0.5;  // of the seedbed's water above field capacity. Source: Macropores (assumed)
constexpr double opened_storage_mm =
    8.0;  // held between clods of freshly tilled ground. Source: OpenedGround (assumed)
constexpr double drivable_pond_mm = 10.0;   // most water on top to drive in. Source: DrivablePond (assumed)
constexpr double balance_tolerance = 1e-9;  // share of throughput

/// A state after something left it, and how much that was.
struct Left {
  WaterState state;
  double mm = 0.0;
};

double total(const WaterState& s) { return s.seedbed_mm + s.below_mm + s.ponded_mm; }

double field_capacity_mm(const Profile& p) { return p.field_capacity * p.seedbed_depth_mm; }

void require_sound(const WaterDay& day) {
  require(day.rain_mm >= 0.0 && day.et0_mm >= 0.0 && day.water_in_mm >= 0.0 && day.board_height_mm >= 0.0,
          "a day's water is not negative");
  require(day.cover >= 0.0 && day.cover <= 1.0 && day.opened >= 0.0 && day.opened <= 1.0 &&
              day.rutted_share >= 0.0 && day.rutted_share <= 1.0 && day.rut_depth_mm >= 0.0,
          "cover, opened and rutted are shares");
}

WaterState infiltrate(const Profile& p, WaterState s) {
  const double to_seedbed =
      std::min(s.ponded_mm, std::max(0.0, p.saturation * p.seedbed_depth_mm - s.seedbed_mm));
  s.seedbed_mm += to_seedbed;
  s.ponded_mm -= to_seedbed;
  const double to_below = std::min(s.ponded_mm, std::max(0.0, p.saturation * p.below_depth_mm - s.below_mm));
  s.below_mm += to_below;
  s.ponded_mm -= to_below;
  return s;
}

/// Over the boards at once; with the boards out at the soil's drain rate, down to what ruts and clods hold.
Left leave_over_surface(const Profile& p, WaterState s, const WaterDay& day) {
  const double held = day.rutted_share * day.rut_depth_mm + day.opened * opened_storage_mm;
  const double free = std::max(0.0, s.ponded_mm - std::max(day.board_height_mm, held));
  const double gone = day.board_height_mm > 0.0 ? free : std::min(free, p.input.surface_drain_mm_per_day);
  s.ponded_mm -= gone;
  return {s, gone};
}

/// From open water while it lasts; for the rest of the day from the seedbed.
Left evaporate(const Profile& p, WaterState s, const WaterDay& day) {
  const double open_water = kc_open_water * day.et0_mm;
  const double from_pond = std::min(s.ponded_mm, open_water);
  const double rest_of_day = from_pond > 0.0 ? 1.0 - from_pond / open_water : 1.0;
  s.ponded_mm -= from_pond;
  const double depletion = std::max(0.0, field_capacity_mm(p) - s.seedbed_mm);
  const double least = field_capacity_mm(p) - p.total_evaporable_mm;
  const double wanted = rest_of_day * soil_evaporation(day.et0_mm, depletion, p.readily_evaporable_mm,
                                                       p.total_evaporable_mm, day.cover, day.opened);
  const double from_soil = std::min(wanted, std::max(0.0, s.seedbed_mm - least));
  s.seedbed_mm -= from_soil;
  return {s, from_pond + from_soil};
}

WaterState drain_seedbed(const Profile& p, WaterState s) {
  const double above = std::max(0.0, s.seedbed_mm - field_capacity_mm(p));
  const double room = std::max(0.0, p.saturation * p.below_depth_mm - s.below_mm);
  const double down = std::min(macropore_share_per_day * above, room);
  s.seedbed_mm -= down;
  s.below_mm += down;
  return s;
}

/// Through the ground from standing water; what the pond does not give comes from below, down to field
/// capacity.
Left percolate(const Profile& p, WaterState s) {
  const double from_pond = std::min(s.ponded_mm, p.input.percolation_mm_per_day);
  const double above = std::max(0.0, s.below_mm - p.field_capacity * p.below_depth_mm);
  const double from_below = std::min(p.input.percolation_mm_per_day - from_pond, above);
  s.ponded_mm -= from_pond;
  s.below_mm -= from_below;
  return {s, from_pond + from_below};
}

/// Ground below that is wetter than field capacity makes good what the seedbed lacks of it, at the soil's
/// capillary rate.
WaterState rise(const Profile& p, WaterState s) {
  const double above = std::max(0.0, s.below_mm - p.field_capacity * p.below_depth_mm);
  const double lacking = std::max(0.0, field_capacity_mm(p) - s.seedbed_mm);
  const double up = std::min({p.input.capillary_mm_per_day, above, lacking});
  s.below_mm -= up;
  s.seedbed_mm += up;
  return s;
}

bool drier_than(const Profile& profile, const WaterState& state, double content) {
  return state.ponded_mm <= drivable_pond_mm && seedbed_content(profile, state) <= content;
}

}  // namespace

WaterStep next(const Profile& profile, const WaterState& state, const WaterDay& day) {
  require_sound(day);
  WaterState s = state;
  s.ponded_mm += day.rain_mm + day.water_in_mm;
  const Left spilled = leave_over_surface(profile, infiltrate(profile, s), day);
  const Left evaporated = evaporate(profile, spilled.state, day);
  const Left percolated = percolate(profile, drain_seedbed(profile, evaporated.state));
  const WaterStep step{rise(profile, percolated.state),
                       {.rain_mm = day.rain_mm,
                        .water_in_mm = day.water_in_mm,
                        .evaporation_mm = evaporated.mm,
                        .percolation_mm = percolated.mm,
                        .spill_mm = spilled.mm}};
  require_balanced(state, step);
  return step;
}

double imbalance(const WaterState& before, const WaterStep& step) {
  const WaterFluxes& f = step.fluxes;
  return f.rain_mm + f.water_in_mm - f.evaporation_mm - f.percolation_mm - f.spill_mm -
         (total(step.state) - total(before));
}

void require_balanced(const WaterState& before, const WaterStep& step) {
  const double throughput = total(before) + step.fluxes.rain_mm + step.fluxes.water_in_mm;
  require(std::abs(imbalance(before, step)) <= balance_tolerance * std::max(1.0, throughput),
          "the day's water balance closes");
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
  return std::clamp(seedbed_content(profile, state) / profile.saturation, 0.0, 1.0);
}

double decay_wetness(const Profile& profile, const WaterState& state) {
  const double air_dry = 0.5 * profile.wilting;
  return std::clamp((seedbed_content(profile, state) - air_dry) / (profile.field_capacity - air_dry), 0.0,
                    1.0);
}

bool workable(const Profile& profile, const WaterState& state, double slow_share) {
  const double mean = seedbed_content(profile, state);
  const double slowest = mean + slow_share * std::max(0.0, profile.field_capacity - mean);
  return state.ponded_mm <= 0.0 && slowest < profile.wet_limit;
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
