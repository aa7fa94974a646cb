// Mapped grain of each field on its cells.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "yield_parts.hpp"

namespace aftercut::farm {
namespace {

constexpr std::array<const char*, drops> rule_words{
    "without a yield or place", "outside the fields",       "of grain too dry or too wet to be true",
    "of no or too much yield",  "at a place counted twice", "far from their field's middle yield"};

std::string with_commas(std::size_t n) {
  std::string digits = std::to_string(n);
  for (std::size_t at = digits.size(); at > 3;) digits.insert(at -= 3, ",");
  return digits;
}

std::string sift_words(const Sifted& s) {
  std::size_t kept = 0;
  for (const auto& field : s.kept) kept += field.size();
  std::string left_out;
  for (std::size_t r = 0; r < drops; ++r)
    if (s.dropped[r] > 0)
      left_out +=
          fmt::format("{}{} {}", left_out.empty() ? "" : ", ", with_commas(s.dropped[r]), rule_words[r]);
  return fmt::format("Yield map: {} of {} points kept; left out: {}", with_commas(kept), with_commas(s.all),
                     left_out.empty() ? "none" : left_out);
}

std::optional<MappedField> mapped_field(const geo::Shape& shape, const std::vector<geo::Sample>& samples,
                                        geo::Point centre, const MapSettings& s) {
  MappedField out;
  out.points = samples.size();
  out.frame = geo::frame_over({shape}, centre, Metre{s.cell_m});
  out.cells = geo::cells_in(out.frame, shape);
  const std::vector<double> means = geo::moving_mean(out.frame, samples, Metre{s.reach_m});
  double area = 0.0, reached = 0.0, sum = 0.0;
  for (const geo::CellShare& c : out.cells) {
    area += c.share;
    if (std::isnan(means[c.cell])) continue;
    reached += c.share;
    sum += c.share * means[c.cell];
  }
  if (reached < least_covered_share * area || reached == 0.0) return std::nullopt;
  out.mean = KgPerHa{sum / reached};
  out.out_of_reach = 1.0 - reached / area;
  for (const geo::CellShare& c : out.cells)
    out.dry_kg_per_ha.push_back(std::isnan(means[c.cell]) ? out.mean.value() : means[c.cell]);
  return out;
}

/// Fields whose boundary is true; a rectangle drawn for its area holds no places.
std::vector<geo::Shape> true_shapes(const std::vector<ReadField>& fields) {
  std::vector<geo::Shape> out;
  for (const ReadField& f : fields) out.push_back(f.field.invented_shape ? geo::Shape{} : f.field.shape);
  return out;
}

void check_near(const Object& part, const std::vector<MapPoint>& points,
                const std::vector<geo::Shape>& shapes, const Sifted& sifted) {
  const auto outside = sifted.dropped[static_cast<std::size_t>(Drop::outside)];
  const auto empty = sifted.dropped[static_cast<std::size_t>(Drop::empty)];
  if (outside == 0 || outside + empty < points.size()) return;
  geo::Shape all;
  for (const geo::Shape& s : shapes)
    all.polygons.insert(all.polygons.end(), s.polygons.begin(), s.polygons.end());
  std::string far = "no field has a boundary";
  const auto placed =
      std::find_if(points.begin(), points.end(), [](const MapPoint& p) { return p.kg_per_ha; });
  if (!all.polygons.empty() && placed != points.end())
    far = fmt::format("the first lies {:.1f} km from the nearest field",
                      geo::distance(geo::Shape{{}, {}, {placed->at}}, all).value() / 1000.0);
  part.fault("file", fmt::format("{} points, none of them in a field; {}", points.size(), far),
             "points inside the fields' boundaries",
             "state the map's true reference system, or take the map of this farm");
}

struct Few {
  std::vector<std::string> few, bare, filled;
};

std::string own_figure(const std::vector<std::string>& ids) {
  return listed(ids) + (ids.size() == 1 ? " keeps its own figure" : " keep their own figures") + " alone";
}

std::vector<std::string> coverage_notes(const Few& f, const MapSettings& s) {
  std::vector<std::string> notes;
  if (!f.few.empty())
    notes.push_back(fmt::format("Yield map: fewer than {} points, {}", s.fewest_points, own_figure(f.few)));
  if (!f.bare.empty())
    notes.push_back(fmt::format("Yield map: over half of the field without a point within {:.0f} m, {}",
                                s.reach_m, own_figure(f.bare)));
  if (!f.filled.empty())
    notes.push_back(
        fmt::format("Yield map: ground without a point within {:.0f} m takes its field's mean: {}", s.reach_m,
                    listed(f.filled)));
  return notes;
}

MappedGrain gridded(MappedGrain out, const std::vector<ReadField>& fields,
                    const std::vector<geo::Shape>& shapes, const Sifted& sifted) {
  std::vector<geo::Shape> mapped;
  for (std::size_t f = 0; f < fields.size(); ++f)
    if (!sifted.kept[f].empty()) mapped.push_back(shapes[f]);
  if (mapped.empty()) return out;
  const geo::Point centre = geo::plane_centre(mapped);
  Few told;
  for (std::size_t f = 0; f < fields.size(); ++f) {
    if (sifted.kept[f].empty()) continue;
    const std::string& id = fields[f].field.id.value;
    if (sifted.kept[f].size() < static_cast<std::size_t>(out.settings.fewest_points)) {
      told.few.push_back(id);
      continue;
    }
    out.fields[f] = mapped_field(shapes[f], sifted.kept[f], centre, out.settings);
    if (!out.fields[f])
      told.bare.push_back(id);
    else if (out.fields[f]->out_of_reach >= 0.005)
      told.filled.push_back(fmt::format("{} {:.0f} %", id, 100.0 * out.fields[f]->out_of_reach));
  }
  for (std::string& note : coverage_notes(told, out.settings)) out.notes.push_back(std::move(note));
  return out;
}

}  // namespace

std::vector<std::optional<KgPerHa>> means_of(const MappedGrain& grain) {
  std::vector<std::optional<KgPerHa>> out;
  for (const auto& field : grain.fields) out.push_back(field ? std::optional{field->mean} : std::nullopt);
  return out;
}

MapSettings read_map_settings(const Object& part) {
  MapSettings s;
  s.cell_m = part.quantity("cell", "m", {2.0, 200.0}).value_or(s.cell_m);
  s.reach_m = part.quantity("reach", "m", {1.0, 500.0}).value_or(s.cell_m);
  s.most_yield_kg_per_ha =
      part.quantity("most_yield", "kg/ha", {1000.0, 100000.0}).value_or(s.most_yield_kg_per_ha);
  s.moisture = part.quantity("moisture", "%", {0.0, 40.0}).value_or(100.0 * s.moisture) / 100.0;
  s.driest = part.quantity("driest", "%", {0.0, 40.0}).value_or(100.0 * s.driest) / 100.0;
  s.wettest = part.quantity("wettest", "%", {0.0, 60.0}).value_or(100.0 * s.wettest) / 100.0;
  s.outlier_mads = part.number("outlier_mads", {1.0, 100.0}).value_or(s.outlier_mads);
  s.outlier_share =
      part.quantity("outlier_share", "%", {0.0, 100.0}).value_or(100.0 * s.outlier_share) / 100.0;
  s.fewest_points = part.whole("fewest_points", 1, 1000000).value_or(s.fewest_points);
  s.heavy_over_mean = part.number("heavy_over_mean", {1.01, 5.0}).value_or(s.heavy_over_mean);
  s.heavy_kg_per_ha = part.quantity("heavy_load", "kg/ha", {100.0, 50000.0});
  s.smallest_zone =
      Hectare{part.quantity("smallest_zone", "ha", {0.0, 1000.0}).value_or(s.smallest_zone.value())};
  return s;
}

MappedGrain read_mapped_grain(const Object& top, const Folder& folder, const std::vector<ReadField>& fields) {
  MappedGrain out;
  out.fields.resize(fields.size());
  if (!top.has("yield_map")) return out;
  const Object part = top.child("yield_map");
  out.settings = read_map_settings(part);
  MapPoints map = read_map_points(part, folder);
  out.inputs = std::move(map.inputs);
  if (map.points.empty()) return out;
  const std::vector<geo::Shape> shapes = true_shapes(fields);
  const Sifted sifted = sift(map.points, shapes, out.settings);
  check_near(part, map.points, shapes, sifted);
  out.notes.push_back(sift_words(sifted));
  return gridded(std::move(out), fields, shapes, sifted);
}

}  // namespace aftercut::farm
