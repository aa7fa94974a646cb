#pragma once
// Daily mean temperature of the seedbed layer: smoothed air temperature, damped by straw and by standing
// water.

namespace aftercut::soil {

struct TemperatureSettings {
  double weight = 0.18;  ///< of today's air mean in the running mean. Source: SoilTemperatureFit (fitted)
  double intercept_c = -1.94;
  double slope = 1.333;
};

/// The running mean of air temperature after one more day [C]. Flooded ground follows half as fast.
double next_running_mean(double running_mean_c, double air_mean_c, bool flooded,
                         const TemperatureSettings& s);
/// Bare-soil daily mean from the running mean; full cover brings it back to the running mean itself, and so
/// does standing water, which spends the sun's surplus on evaporation [C]. Source: SoilTemperatureDamping
/// (assumed).
double soil_temperature(double running_mean_c, double cover, bool flooded, const TemperatureSettings& s);

}  // namespace aftercut::soil
