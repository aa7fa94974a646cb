// Straw of every field as layers and a raster.

#include "aftercut/geo/layer.hpp"
#include "aftercut/geo/raster.hpp"
#include "aftercut/report/straw.hpp"
#include "out_folder.hpp"
#include "straw_figures.hpp"

namespace aftercut::report {
namespace {

std::string tenths(double x) { return fmt::format("{:.1f}", rounded(x, 1)); }

geo::Feature field_feature(const farm::Farm& farm, std::size_t f) {
  const farm::Field& field = farm.fields[f];
  const StrawFigures s = straw_figures(farm, f);
  geo::Feature out;
  out.row = static_cast<int>(f) + 1;
  out.shape = field.shape;
  out.values = {{"field", field.id.value},
                {"name", field.name},
                {"area_ha", fmt::format("{:.4f}", rounded(field.area.value(), 4))},
                {"straw_kg_per_ha", tenths(s.load_kg_per_ha)},
                {"standing_kg_per_ha", tenths(s.standing_kg_per_ha)},
                {"loose_kg_per_ha", tenths(s.loose_kg_per_ha)},
                {"from", s.from}};
  if (const farm::YieldPattern* p = pattern_of(farm, f)) {
    out.values["p10_kg_per_ha"] = tenths(p->p10_kg_per_ha);
    out.values["p90_kg_per_ha"] = tenths(p->p90_kg_per_ha);
    out.values["cv_percent"] = tenths(100.0 * p->cv);
    out.values["heavy_area_ha"] = fmt::format("{:.3f}", rounded(p->heavy_share * field.area.value(), 3));
  }
  return out;
}

geo::LayerToWrite straw_layer(const farm::Farm& farm) {
  geo::LayerToWrite layer{"straw",
                          {{"field", 't'},
                           {"name", 't'},
                           {"area_ha", 'd'},
                           {"straw_kg_per_ha", 'd'},
                           {"standing_kg_per_ha", 'd'},
                           {"loose_kg_per_ha", 'd'},
                           {"p10_kg_per_ha", 'd'},
                           {"p90_kg_per_ha", 'd'},
                           {"cv_percent", 'd'},
                           {"heavy_area_ha", 'd'},
                           {"from", 't'}},
                          {}};
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    if (!farm.fields[f].shape.polygons.empty()) layer.features.push_back(field_feature(farm, f));
  return layer;
}

geo::LayerToWrite heavy_layer(const farm::Farm& farm) {
  geo::LayerToWrite layer{
      "heavy-straw",
      {{"field", 't'}, {"area_ha", 'd'}, {"straw_kg_per_ha", 'd'}, {"over_kg_per_ha", 'd'}},
      {}};
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const farm::YieldPattern* p = pattern_of(farm, f);
    if (p == nullptr) continue;
    for (const farm::HeavyZone& zone : p->zones) {
      geo::Feature out;
      out.row = static_cast<int>(layer.features.size()) + 1;
      out.shape = zone.outline;
      out.values = {{"field", farm.fields[f].id.value},
                    {"area_ha", fmt::format("{:.3f}", rounded(zone.area.value(), 3))},
                    {"straw_kg_per_ha", tenths(zone.load.value())},
                    {"over_kg_per_ha", tenths(p->heavy_from_kg_per_ha)}};
      layer.features.push_back(std::move(out));
    }
  }
  return layer;
}

}  // namespace

Result<std::filesystem::path> write_straw(const farm::Farm& farm, const std::filesystem::path& out) {
  const bool mapped = farm.yield_map.straw.columns > 0;
  std::vector<std::string> names{"straw.geojson"};
  if (mapped) names.insert(names.end(), {"straw.tif", "heavy-straw.geojson"});
  return write_folder(out, names, [&](const std::filesystem::path& folder) {
    Issues issues;
    gather(issues, geo::write_geojson(folder / "straw.geojson", straw_layer(farm)));
    if (!mapped) return issues;
    gather(issues, geo::write_geotiff(folder / "straw.tif", farm.yield_map.straw, "oven-dry straw"));
    gather(issues, geo::write_geojson(folder / "heavy-straw.geojson", heavy_layer(farm)));
    return issues;
  });
}

}  // namespace aftercut::report
