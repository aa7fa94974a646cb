#include "aftercut/soil/saxton_rawls.hpp"

#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::soil {

TextureWater saxton_rawls(double s, double c, double om) {
  require(s >= 0.0 && c >= 0.0 && s + c <= 1.0 && om >= 0.0,
          "sand and clay are shares of the soil, organic matter a percentage");
  const double t1500 =
      -0.024 * s + 0.487 * c + 0.006 * om + 0.005 * s * om - 0.013 * c * om + 0.068 * s * c + 0.031;
  const double th1500 = 1.14 * t1500 - 0.02;
  const double t33 =
      -0.251 * s + 0.195 * c + 0.011 * om + 0.006 * s * om - 0.027 * c * om + 0.452 * s * c + 0.299;
  const double th33 = t33 + 1.283 * t33 * t33 - 0.374 * t33 - 0.015;
  const double ts33 =
      0.278 * s + 0.034 * c + 0.022 * om - 0.018 * s * om - 0.027 * c * om - 0.584 * s * c + 0.078;
  const double saturation = th33 + (1.636 * ts33 - 0.107) - 0.097 * s + 0.043;
  const double b = (std::log(1500.0) - std::log(33.0)) / (std::log(th33) - std::log(th1500));
  return {.wilting = th1500,
          .field_capacity = th33,
          .saturation = saturation,
          .conductivity_mm_per_h = 1930.0 * std::pow(saturation - th33, 3.0 - 1.0 / b),
          .bulk_density_t_per_m3 = (1.0 - saturation) * 2.65};
}

}  // namespace aftercut::soil
