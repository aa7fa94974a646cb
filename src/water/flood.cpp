#include "aftercut/water/flood.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::water {
namespace {

constexpr double m3_per_acre_foot = 1233.48184;  // international acre and foot, by definition

}  // namespace

CubicMetre volume(Millimetre depth, Hectare area) {
  return CubicMetre{m3_per_mm_ha * depth.value() * area.value()};
}

Millimetre depth(CubicMetre volume, Hectare area) {
  require(area.value() > 0.0, "a depth needs an area above 0");
  return Millimetre{volume.value() / (m3_per_mm_ha * area.value())};
}

double acre_feet(CubicMetre volume) { return volume.value() / m3_per_acre_foot; }

Millimetre fill_need(Millimetre target, Millimetre ponded, Millimetre soil_need) {
  return std::max(Millimetre{0.0}, target + soil_need - ponded);
}

int fill_days(CubicMetre need, CubicMetrePerDay flow) {
  if (need.value() <= 0.0) return 0;
  require(flow.value() > 0.0, "filling needs a flow above 0");
  return static_cast<int>(std::ceil(need.value() / flow.value() - 1e-9));
}

}  // namespace aftercut::water
