// Factor sets, nutrient prices, disease history.

#include "parts.hpp"

namespace aftercut::farm {
namespace {

template <class Enum>
Enum word_of(const Object& o, const char* key, const std::vector<std::string>& words, Enum otherwise) {
  const auto word = o.word(key, words);
  return word ? static_cast<Enum>(*word) : otherwise;
}

}  // namespace

EnvironmentSettings read_environment(const Object& top, bool south) {
  const Object o = top.child("environment");
  EnvironmentSettings e;
  e.burn_factors = word_of(o, "burn_factors", burn::factor_set_keys(), e.burn_factors);
  e.warming = word_of(o, "warming_set", burn::warming_set_keys(), e.warming);
  e.diesel = word_of(o, "diesel_factor", burn::diesel_set_keys(), e.diesel);
  e.methane.set = word_of(o, "methane_set", burn::methane_set_keys(), e.methane.set);
  e.methane.region = word_of(o, "region", burn::region_keys(), e.methane.region);
  e.methane.water = word_of(o, "season_water", burn::season_water_keys(), e.methane.water);
  e.methane.cultivation_days = o.whole("cultivation_days", 30, 300);
  e.winter_flood = word_of(o, "winter_flood", {"by_dates", "flooded"}, e.winter_flood);
  e.fire_losses = word_of(o, "fire_losses", {"part_of_each", "nitrogen_only"}, e.fire_losses);
  straw::WasteGrain& grain = e.waste_grain;
  grain.at_harvest_kg_per_ha =
      o.quantity("waste_grain", "kg/ha", {0.0, 3000.0}).value_or(grain.at_harvest_kg_per_ha);
  grain.loss_per_day = o.number("waste_grain_loss_per_day", {0.0, 0.2}).value_or(grain.loss_per_day);
  if (south) e.late_autumn = {6, 1};
  e.late_autumn = o.month_day("late_autumn").value_or(e.late_autumn);
  return e;
}

NutrientPrices read_nutrient_prices(const Object& prices, const std::string& currency) {
  const auto price = [&](const char* key) { return prices.money(key, "kg", currency, {0.0, 1e4}); };
  return {.n_per_kg = price("nitrogen"), .p_per_kg = price("phosphorus"), .k_per_kg = price("potassium")};
}

DiseaseHistory read_disease(const Object& v) {
  const auto word = v.word("disease_history", {"none", "some", "heavy"});
  const auto stems = v.quantity("stem_rot", "%", {0.0, 100.0});
  if (word && stems)
    v.fault("disease_history", "both disease_history and stem_rot", "one of the two", "keep one");
  if (stems) return {.entered = true, .weight = straw::stem_rot_weight(*stems)};
  if (!word) return {};
  return {.entered = true, .weight = *word == 0 ? 0.0 : *word == 1 ? some_disease : 1.0};
}

}  // namespace aftercut::farm
