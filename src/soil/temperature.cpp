#include "aftercut/soil/temperature.hpp"

namespace aftercut::soil {

double next_running_mean(double running_mean_c, double air_mean_c, bool flooded,
                         const TemperatureSettings& s) {
  const double weight = flooded ? 0.5 * s.weight : s.weight;
  return running_mean_c + weight * (air_mean_c - running_mean_c);
}

double soil_temperature(double running_mean_c, double cover, bool flooded, const TemperatureSettings& s) {
  const double bare = flooded ? running_mean_c : s.intercept_c + s.slope * running_mean_c;
  return bare + cover * (running_mean_c - bare);
}

}  // namespace aftercut::soil
