#include "aftercut/soil/evaporation.hpp"

#include <algorithm>

namespace aftercut::soil {

double total_evaporable_mm(double field_capacity, double wilting, double depth_m) {
  return 1000.0 * (field_capacity - 0.5 * wilting) * depth_m;
}

double next_depletion(double depletion_mm, double wetting_mm, double evaporation_mm, double total_mm) {
  return std::clamp(std::max(0.0, depletion_mm - wetting_mm) + evaporation_mm, 0.0, total_mm);
}

}  // namespace aftercut::soil
