#pragma once
// Money, prices and amounts as words in the farm's own measures.

#include <cstdint>
#include <string>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/reasons.hpp"

namespace aftercut::scenario {

std::string by_area_words(const farm::Farm& farm, double per_ha);     ///< "12 USD/acre"
std::string money_words(const farm::Farm& farm, std::int64_t cents);  ///< "1,240 USD"
std::string straw_mass_words(const farm::Farm& farm, double tonnes);  ///< "210 t"; short tons in the US
std::string water_words(const farm::Farm& farm, double m3);           ///< "24,000 m3" or "19.5 acre-ft"
/// A price with its unit: "21.40 USD/t", "3.97 USD/gal".
std::string price_with_unit(const farm::Farm& farm, plan::PriceOf of, double price);
/// What the price is of: "straw", "diesel", "canal water" or the outfit.
std::string price_name(const farm::Farm& farm, plan::PriceOf of, int implement);

}  // namespace aftercut::scenario
