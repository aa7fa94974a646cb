#pragma once
// Daily mean temperature of the seedbed layer: smoothed air temperature, damped by straw and by standing
// water.

#include "aftercut/core/lanes.hpp"

namespace aftercut::soil {

struct TemperatureSettings {
  double weight = 0.18;  ///< of today's air mean in the running mean. Source: SoilTemperatureFit (fitted)
  double intercept_c = -1.94;
  double slope = 1.333;
};

/// The running mean of air temperature after one more day [C]. Flooded ground follows half as fast.
template <class N>
N next_running_mean(const N& running_mean_c, const N& air_mean_c, const Mask<N>& flooded,
                    const TemperatureSettings& s) {
  const N weight = pick(flooded, N{0.5 * s.weight}, N{s.weight});
  return running_mean_c + weight * (air_mean_c - running_mean_c);
}
/// Bare-soil daily mean from the running mean; full cover brings it back to the running mean itself, and so
/// does standing water, which spends the sun's surplus on evaporation [C]. Source: SoilTemperatureDamping
/// (assumed).
template <class N>
N soil_temperature(const N& running_mean_c, const N& cover, const Mask<N>& flooded,
                   const TemperatureSettings& s) {
  const N bare = pick(flooded, running_mean_c, N{s.intercept_c + s.slope * running_mean_c});
  return bare + cover * (running_mean_c - bare);
}

}  // namespace aftercut::soil
