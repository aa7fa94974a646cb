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

}  // namespace

plan::Environment read_environment(JsonIn& in, const Json& row, const std::string& place) {
  plan::Environment e;
  const auto part = [&](const Json& holder, const char* key) -> const Json& {
    return in.get(holder, key, place);
  };
  const auto years = [&](const Json& holder, const char* key) {
    return read_year_figure(in, part(holder, key), place + "." + key);
  };
  e.rice_years = in.small(row, "rice_years", place);
  e.methane = read_figure(in, part(row, "methane_kg_per_ha"), place + ".methane_kg_per_ha");
  const Json& co2e = part(row, "co2e_kg_per_ha");
  e.co2e = read_figure(in, part(co2e, "all"), place + ".co2e_kg_per_ha.all");
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
