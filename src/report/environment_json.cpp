// What methods leave for the next crop, the air and the birds, as JSON and in words for the terminal.

#include <array>

#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr int figure_digits = 3;

json figure_json(const plan::Figure& f) {
  return {{"mean", rounded(f.mean, figure_digits)},
          {"low", rounded(f.low, figure_digits)},
          {"high", rounded(f.high, figure_digits)},
          {"p10", rounded(f.p10, figure_digits)},
          {"p90", rounded(f.p90, figure_digits)}};
}

json years_json(const plan::YearFigure& f) {
  return {{"mean", rounded(f.mean, figure_digits)},
          {"p10", rounded(f.p10, figure_digits)},
          {"p90", rounded(f.p90, figure_digits)}};
}

json burned_json(const plan::Environment& e) {
  json out = json::object();
  for (std::size_t g = 0; g < burn::gases; ++g)
    out[burn::key_of(static_cast<burn::Gas>(g))] = figure_json(e.burned[g]);
  return out;
}

const char* key_in(const std::vector<std::string>& keys, int index) {
  return keys.at(static_cast<std::size_t>(index)).c_str();
}

constexpr const char* tier_1_caution =
    "Methane by the first tier of the IPCC guidelines covers the days of the rice crop only. What the "
    "flooded or wet "
    "fallow gives off is left out, and it can be more: 314 kg CH4/ha a year were measured in one delta, some "
    "70 % of "
    "it in the fallow. So a winter flood gives off more than these figures say.";
constexpr const char* co2_words =
    "CO2 of the straw itself, burned or rotted, is part of the yearly round of the crop: told apart, left "
    "out of CO2e.";
constexpr const char* disease_words =
    "The disease index compares methods by the straw that is left with what it carries: 1 is a field of "
    "heavy history "
    "left untouched. It does not predict a yield.";
constexpr const char* range_words =
    "Low and high are the range of the sources; low and high year are the spread of the weather years.";

}  // namespace

json environment_json(const plan::Environment& e, double area_ha) {
  return {
      {"burned_kg_per_ha", burned_json(e)},
      {"rice_years", e.rice_years},
      {"methane_kg_per_ha", figure_json(e.methane)},
      {"methane_dry_winter_kg_per_ha", figure_json(e.methane_dry_winter)},
      {"methane_flooded_winter_kg_per_ha", figure_json(e.methane_flooded_winter)},
      {"straw_factor", rounded(e.straw_factor, 4)},
      {"straw_applied_kg_per_ha",
       {{"early", rounded(e.applied_early, figure_digits)},
        {"late", rounded(e.applied_late, figure_digits)}}},
      {"residue_n2o_kg_per_ha", figure_json(e.residue_n2o)},
      {"co2e_kg_per_ha",
       {{"all", figure_json(e.co2e)},
        {"burn", figure_json(e.co2e_burn)},
        {"methane", figure_json(e.co2e_methane)},
        {"residue_n2o", figure_json(e.co2e_n2o)},
        {"diesel", figure_json(e.co2e_diesel)}}},
      {"nitrogen_kg_per_ha",
       {{"taken_up", years_json(e.n_taken_up)},
        {"given_back", years_json(e.n_given_back)},
        {"held", years_json(e.n_held)}}},
      {"replacement_per_ha", e.replacement ? figure_json(*e.replacement) : json(nullptr)},
      {"disease_index", e.disease ? years_json(*e.disease) : json(nullptr)},
      {"waste_grain_kg_per_ha", years_json(e.waste_grain)},
      {"flooded_days", years_json(e.flooded_days)},
      {"bird_days", years_json(e.bird_days)},
      {"bird_ha_days", rounded(e.bird_days.mean * area_ha, 1)},
      {"late_loss_kg_per_ha",
       {{"mean", rounded(e.late_loss, figure_digits)}, {"high", rounded(e.late_loss_high, figure_digits)}}}};
}

json environment_settings_json(const farm::Farm& farm) {
  const farm::EnvironmentSettings& s = farm.environment;
  const bool part = s.fire_losses == farm::FireLosses::part_of_each;
  return {{"burn_factors", key_in(burn::factor_set_keys(), static_cast<int>(s.burn_factors))},
          {"burn_factors_words", burn::words_of(s.burn_factors)},
          {"warming_set", key_in(burn::warming_set_keys(), static_cast<int>(s.warming))},
          {"diesel_factor", key_in(burn::diesel_set_keys(), static_cast<int>(s.diesel))},
          {"methane_set", key_in(burn::methane_set_keys(), static_cast<int>(s.methane.set))},
          {"region", key_in(burn::region_keys(), static_cast<int>(s.methane.region))},
          {"season_water", key_in(burn::season_water_keys(), static_cast<int>(s.methane.water))},
          {"cultivation_days", burn::cultivation_days(s.methane)},
          {"winter_flood", s.winter_flood == farm::WinterFlood::by_dates ? "by_dates" : "flooded"},
          {"fire_losses", part ? "part_of_each" : "nitrogen_only"},
          {"late_autumn", iso(next_on(s.late_autumn, farm.season.first))},
          {"words", {range_words, tier_1_caution, co2_words, disease_words}}};
}

}  // namespace aftercut::report
