#include "read_environment.hpp"

namespace aftercut::audit {
namespace {

plan::Figure read_figure(JsonIn& in, const Json& row, const std::string& place) {
  return {in.number(row, "mean", place), in.number(row, "low", place), in.number(row, "high", place),
          in.number(row, "p10", place), in.number(row, "p90", place)};
}

plan::YearFigure read_year_figure(JsonIn& in, const Json& row, const std::string& place) {
  return {in.number(row, "mean", place), in.number(row, "p10", place), in.number(row, "p90", place)};
}

/// The gases, the methane and the CO2 equivalents with their ranges.
plan::Environment with_air(JsonIn& in, const Json& row, const std::string& place, plan::Environment e) {
  const auto figure = [&](const Json& holder, const std::string& where, const char* key) {
    return read_figure(in, in.get(holder, key, where), where + "." + key);
  };
  const std::string in_fire = place + ".burned_kg_per_ha";
  const Json& burned = in.get(row, "burned_kg_per_ha", place);
  for (std::size_t g = 0; g < burn::gases; ++g)
    e.burned[g] = figure(burned, in_fire, burn::key_of(static_cast<burn::Gas>(g)));
  e.methane = figure(row, place, "methane_kg_per_ha");
  e.methane_dry_winter = figure(row, place, "methane_dry_winter_kg_per_ha");
  e.methane_flooded_winter = figure(row, place, "methane_flooded_winter_kg_per_ha");
  e.straw_factor = in.number(row, "straw_factor", place);
  e.residue_n2o = figure(row, place, "residue_n2o_kg_per_ha");
  const std::string in_co2e = place + ".co2e_kg_per_ha";
  const Json& co2e = in.get(row, "co2e_kg_per_ha", place);
  e.co2e = figure(co2e, in_co2e, "all");
  e.co2e_burn = figure(co2e, in_co2e, "burn");
  e.co2e_methane = figure(co2e, in_co2e, "methane");
  e.co2e_n2o = figure(co2e, in_co2e, "residue_n2o");
  e.co2e_diesel = figure(co2e, in_co2e, "diesel");
  return e;
}

}  // namespace

burn::Emissions read_emissions(JsonIn& in, const Json& row, const std::string& place) {
  burn::Emissions e;
  e.ch4_kg = in.number(row, "ch4", place);
  e.n2o_kg = in.number(row, "n2o", place);
  e.pm25_kg = in.number(row, "pm25", place);
  e.co_kg = in.number(row, "co", place);
  e.nox_kg = in.number(row, "nox", place);
  e.co2_diesel_kg = in.number(row, "co2_diesel", place);
  e.co2e_kg = in.number(row, "co2e", place);
  return e;
}

plan::Environment read_environment(JsonIn& in, const Json& row, const std::string& place) {
  plan::Environment e;
  const auto part = [&](const Json& holder, const char* key) -> const Json& {
    return in.get(holder, key, place);
  };
  const auto years = [&](const Json& holder, const char* key) {
    return read_year_figure(in, part(holder, key), place + "." + key);
  };
  e.rice_years = in.small(row, "rice_years", place);
  e = with_air(in, row, place, e);
  const Json& applied = part(row, "straw_applied_kg_per_ha");
  e.applied_early = in.number(applied, "early", place);
  e.applied_late = in.number(applied, "late", place);
  const Json& nitrogen = part(row, "nitrogen_kg_per_ha");
  e.n_taken_up = years(nitrogen, "taken_up");
  e.n_given_back = years(nitrogen, "given_back");
  e.n_held = years(nitrogen, "held");
  if (!part(row, "disease_index").is_null()) e.disease = years(row, "disease_index");
  e.waste_grain = years(row, "waste_grain_kg_per_ha");
  e.flooded_days = years(row, "flooded_days");
  e.bird_days = years(row, "bird_days");
  const Json& late = part(row, "late_loss_kg_per_ha");
  e.late_loss = in.number(late, "mean", place);
  e.late_loss_high = in.number(late, "high", place);
  return e;
}

plan::NextCrop read_next_crop(JsonIn& in, const Json& row, const std::string& place) {
  plan::NextCrop c;
  c.burned_in_rows = in.truth(row, "burned_in_rows", place);
  c.burned_moisture_percent = in.number(row, "burned_moisture_percent", place);
  c.applied_early_kg_per_ha = in.number(row, "applied_early_kg_per_ha", place);
  c.applied_late_kg_per_ha = in.number(row, "applied_late_kg_per_ha", place);
  c.n_taken_up_kg_per_ha = in.number(row, "n_taken_up_kg_per_ha", place);
  c.n_given_back_kg_per_ha = in.number(row, "n_given_back_kg_per_ha", place);
  c.n_held_kg_per_ha = in.number(row, "n_held_kg_per_ha", place);
  c.spring_day = in.small(row, "spring_day", place);
  c.spring_on_top_kg_per_ha = in.number(row, "spring_on_top_kg_per_ha", place);
  c.spring_in_ground_kg_per_ha = in.number(row, "spring_in_ground_kg_per_ha", place);
  c.flooded_days = in.small(row, "flooded_days", place);
  c.bird_days = in.small(row, "bird_days", place);
  c.long_flood_end = in.small(row, "long_flood_end_day", place);
  c.waste_grain_kg_per_ha = in.number(row, "waste_grain_kg_per_ha", place);
  return c;
}

}  // namespace aftercut::audit
