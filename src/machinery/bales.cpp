#include "aftercut/machinery/bales.hpp"

#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::machinery {
namespace {

constexpr double knot_m = 0.5;
constexpr double slack = 1e-9;  // an exact multiple begins no further bale

}  // namespace

int bales_of(Kilogram as_baled, const BaleSettings& settings) {
  require(settings.mass.value() > 0.0, "a bale has a mass above 0");
  return static_cast<int>(std::ceil(as_baled / settings.mass - slack));
}

BaleLoads loads_of(int bales, const BaleSettings& settings) {
  require(bales >= 0 && settings.per_load > 0, "bales are 0 or more and a load holds some");
  return {bales, (bales + settings.per_load - 1) / settings.per_load,
          static_cast<double>(bales) * twine_of_a_bale(settings)};
}

double bale_volume_m3(const BaleSettings& s) { return s.length.value() * s.width.value() * s.height.value(); }

double bale_density_kg_m3(const BaleSettings& s) { return s.mass.value() / bale_volume_m3(s); }

Metre twine_of_a_bale(const BaleSettings& s) {
  return static_cast<double>(s.strands) * (2.0 * (s.length + s.height) + Metre{knot_m});
}

}  // namespace aftercut::machinery
