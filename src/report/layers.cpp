#include "layers.hpp"

#include <algorithm>

#include "aftercut/core/require.hpp"

namespace aftercut::report {
namespace {

std::string text_of(const json& value) { return value.is_null() ? "" : value.get<std::string>(); }

void set(geo::Feature& feature, const char* column, const std::string& text) {
  if (!text.empty()) feature.values[column] = text;
}

void set_method(geo::Feature& out, const farm::Farm& farm, const farm::Field& field,
                const plan::FieldPlan& p) {
  const auto chosen = std::find_if(p.methods.begin(), p.methods.end(),
                                   [&](const plan::MethodOutcome& m) { return m.method == p.chosen.method; });
  if (p.chosen.method == plan::none || chosen == p.methods.end()) return;
  const auto& recipe = farm.book.recipes.at(static_cast<std::size_t>(p.chosen.method));
  set(out, "method", recipe.id.value);
  set(out, "method_name", recipe.name);
  const double per_ha = static_cast<double>(chosen->mean_cost.out_of_pocket()) / 100.0 / field.area.value();
  set(out, "cost_per_ha", fmt::format("{:.2f}", rounded(per_ha, 2)));
  set(out, "straw_left_kg_per_ha", fmt::format("{:.1f}", rounded(chosen->straw_left_kg_per_ha.p50, 1)));
  set(out, "ready_p10", text_of(ready_json(farm, field, chosen->ready.p10)));
  set(out, "ready_p50", text_of(ready_json(farm, field, chosen->ready.p50)));
  set(out, "ready_p90", text_of(ready_json(farm, field, chosen->ready.p90)));
  if (farm::seedbed_due(field))
    set(out, "chance_ready", fmt::format("{:.4f}", rounded(chosen->chance_ready, 4)));
  if (chosen->last_safe_start) set(out, "last_start", iso(farm.season.date(*chosen->last_safe_start)));
}

geo::Feature feature_of(const farm::Farm& farm, std::size_t f, const plan::FieldPlan& p) {
  const farm::Field& field = farm.fields[f];
  geo::Feature out;
  out.row = static_cast<int>(f) + 1;
  out.shape = field.shape;
  set(out, "id", field.id.value);
  set(out, "name", field.name);
  set(out, "area_ha", fmt::format("{:.4f}", rounded(field.area.value(), 4)));
  set(out, "straw_kg_per_ha", fmt::format("{:.1f}", rounded(p.load_kg_per_ha, 1)));
  set(out, "lay", words(p.chosen.lay));
  set(out, "cut_height_cm", fmt::format("{:.1f}", rounded(p.chosen.cut_height_cm, 1)));
  if (farm::seedbed_due(field)) set(out, "planting_date", iso(field.next.planting));
  set_method(out, farm, field, p);
  return out;
}

}  // namespace

geo::LayerToWrite fields_layer(const farm::Problem& problem, const plan::PlannedYears& planned) {
  geo::LayerToWrite out;
  out.name = "fields";
  out.columns = {{"id", 't'},
                 {"name", 't'},
                 {"area_ha", 'd'},
                 {"straw_kg_per_ha", 'd'},
                 {"lay", 't'},
                 {"cut_height_cm", 'd'},
                 {"method", 't'},
                 {"method_name", 't'},
                 {"cost_per_ha", 'd'},
                 {"straw_left_kg_per_ha", 'd'},
                 {"planting_date", 't'},
                 {"ready_p10", 't'},
                 {"ready_p50", 't'},
                 {"ready_p90", 't'},
                 {"chance_ready", 'd'},
                 {"last_start", 't'}};
  for (std::size_t f = 0; f < problem.farm.fields.size(); ++f) {
    if (problem.farm.fields[f].shape.polygons.empty()) continue;
    out.features.push_back(feature_of(problem.farm, f, planned.plan.fields.at(f)));
  }
  return out;
}

}  // namespace aftercut::report
