#include "aftercut/straw/load.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::straw {

KgPerHa straw_load(KgPerHa dry_grain, Fraction harvest_index) {
  const double hi = harvest_index.value();
  require(hi > 0.0 && hi < 1.0, "a harvest index lies between 0 and 1");
  require(dry_grain.value() >= 0.0, "a yield is not negative");
  return dry_grain * ((1.0 - hi) / hi);
}

KgPerHa dry_grain(KgPerHa grain, Fraction moisture) {
  require(moisture.value() >= 0.0 && moisture.value() < 1.0, "grain moisture is a share below 1");
  return grain * (1.0 - moisture.value());
}

KgPerHa straw_load_ipcc(KgPerHa dry_grain) { return 0.95 * dry_grain + KgPerHa{2460.0}; }

Fraction stubble_share(double cut_height_cm, double crop_height_cm) {
  require(crop_height_cm > 0.0, "a crop has a height");
  if (cut_height_cm <= 0.0) return Fraction{0.0};
  return Fraction{std::min(1.0, std::pow(cut_height_cm / crop_height_cm, 0.522))};
}

}  // namespace aftercut::straw
