#include "aftercut/scenario/money_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "aftercut/core/customary.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/water/flood.hpp"

namespace aftercut::scenario {
namespace {

using plan::PriceOf;

bool us(const farm::Farm& farm) { return farm.units == farm::UnitSystem::us; }

/// A whole number with a comma before every third digit.
std::string grouped(double x) {
  std::string digits = fmt::format("{:.0f}", std::abs(x));
  for (auto at = static_cast<int>(digits.size()) - 3; at > 0; at -= 3)
    digits.insert(static_cast<std::size_t>(at), ",");
  return (x <= -0.5 ? "-" : "") + digits;
}

/// The unit of a price as the farm reads it, and how many of the price's SI units one such unit holds.
struct ShownUnit {
  const char* name;
  double si = 1.0;
};
ShownUnit shown_unit(const farm::Farm& farm, PriceOf of) {
  const double m3_per_acre_ft = 1.0 / water::acre_feet(CubicMetre{1.0});
  switch (of) {
    case PriceOf::straw:
    case PriceOf::hire_mass:
      return us(farm) ? ShownUnit{"ton", kg_per_short_ton / 1000.0} : ShownUnit{"t"};
    case PriceOf::straw_area:
    case PriceOf::hire_area:
      return us(farm) ? ShownUnit{"acre", ha_per_acre} : ShownUnit{"ha"};
    case PriceOf::straw_bale:
    case PriceOf::hire_bale:
      return {"bale"};
    case PriceOf::diesel:
      return us(farm) ? ShownUnit{"gal", l_per_gal} : ShownUnit{"L"};
    case PriceOf::water:
      return us(farm) ? ShownUnit{"acre-ft", m3_per_acre_ft} : ShownUnit{"m3"};
    case PriceOf::hire_hour:
      return {"h"};
  }
  fail("a price without a unit");
}

}  // namespace

std::string by_area_words(const farm::Farm& farm, double per_ha) {
  const double shown = us(farm) ? per_ha * ha_per_acre : per_ha;
  return fmt::format("{} {}/{}", grouped(shown), farm.currency, us(farm) ? "acre" : "ha");
}

std::string money_words(const farm::Farm& farm, std::int64_t cents) {
  return fmt::format("{} {}", grouped(static_cast<double>(cents) / 100.0), farm.currency);
}

std::string straw_mass_words(const farm::Farm& farm, double tonnes) {
  return us(farm) ? grouped(1000.0 * tonnes / kg_per_short_ton) + " tons" : grouped(tonnes) + " t";
}

std::string water_words(const farm::Farm& farm, double m3) {
  return us(farm) ? fmt::format("{:.1f} acre-ft", water::acre_feet(CubicMetre{m3})) : grouped(m3) + " m3";
}

std::string price_with_unit(const farm::Farm& farm, PriceOf of, double price) {
  const ShownUnit unit = shown_unit(farm, of);
  const double shown = price * unit.si;
  return fmt::format("{:.{}f} {}/{}", shown, std::abs(shown) < 0.1 ? 4 : 2, farm.currency, unit.name);
}

std::string price_name(const farm::Farm& farm, PriceOf of, int implement) {
  if (of == PriceOf::diesel) return "diesel";
  if (of == PriceOf::water) return "canal water";
  if (implement == plan::none) return "straw";
  const machinery::Implement& i = farm.implements[static_cast<std::size_t>(implement)];
  return i.name.empty() ? i.id.value : i.name;
}

}  // namespace aftercut::scenario
