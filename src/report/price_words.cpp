#include "aftercut/report/price_words.hpp"

#include "aftercut/core/customary.hpp"
#include "aftercut/water/flood.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

struct Price {
  const char* what;
  std::optional<double> si;
  const char* unit;
  const char* us_unit;
  double us_per_si;  ///< SI units in one US unit
};

std::vector<Price> prices_of(const farm::Farm& farm) {
  const farm::Prices& p = farm.prices;
  const auto if_any = [](double x) { return x == 0.0 ? std::nullopt : std::optional{x}; };
  return {{"straw", p.straw_per_tonne.value(), "/t", "/ton", kg_per_short_ton / 1000.0},
          {"straw_area", if_any(p.straw_per_ha.value()), "/ha", "/acre", ha_per_acre},
          {"straw_bale", if_any(p.straw_per_bale.value()), "", "", 1.0},
          {"diesel", p.diesel_per_l.value(), "/L", "/gal", l_per_gal},
          {"grain", p.grain_per_kg.value(), "/kg", "/lb", kg_per_lb},
          {"twine", if_any(p.twine_per_tonne.value()), "/t", "/ton", kg_per_short_ton / 1000.0},
          {"burn_fee", if_any(p.burn_fee_per_ha.value()), "/ha", "/acre", ha_per_acre},
          {"unplanted", p.unplanted_per_ha.value(), "/ha", "/acre", ha_per_acre},
          {"nitrogen", p.nutrients.n_per_kg, "/kg", "/lb", kg_per_lb},
          {"phosphorus", p.nutrients.p_per_kg, "/kg", "/lb", kg_per_lb},
          {"potassium", p.nutrients.k_per_kg, "/kg", "/lb", kg_per_lb},
          {"canal_water", farm.supply ? std::optional{farm.supply->per_m3.value()} : std::nullopt, "/m3",
           "/acre_foot", 1.0 / water::acre_feet(CubicMetre{1.0})}};
}

}  // namespace

std::optional<std::string> price_now(const farm::Farm& farm, const std::string& what) {
  const bool us = farm.units == farm::UnitSystem::us;
  for (const Price& p : prices_of(farm))
    if (p.what == what && p.si)
      return fmt::format("{:.5g} {}{}", us ? *p.si * p.us_per_si : *p.si, farm.currency,
                         us ? p.us_unit : p.unit);
  return std::nullopt;
}

}  // namespace aftercut::report
