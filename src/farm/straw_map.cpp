// Patterns of straw from mapped grain: scaled to each field's own figure, heavy ground outlined.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "aftercut/core/require.hpp"
#include "yield_parts.hpp"

namespace aftercut::farm {
namespace {

/// Values and their weights, values rising.
using Weighted = std::vector<std::pair<double, double>>;

/// By weight, linear between the middles of the values' shares.
double weighted_quantile(const Weighted& sorted, double p) {
  double all = 0.0;
  for (const auto& [value, weight] : sorted) all += weight;
  double before = 0.0, last_at = 0.0, last = sorted.front().first;
  for (const auto& [value, weight] : sorted) {
    const double at = (before + 0.5 * weight) / all;
    if (at >= p)
      return at == last_at ? value : last + (value - last) * std::max(0.0, p - last_at) / (at - last_at);
    before += weight;
    last_at = at;
    last = value;
  }
  return last;
}

/// Straw on each cell, so that their mean by area is the field's load.
std::vector<double> straw_cells(const MappedField& m, KgPerHa load) {
  double area = 0.0, sum = 0.0;
  for (std::size_t i = 0; i < m.cells.size(); ++i) {
    area += m.cells[i].share;
    sum += m.cells[i].share * m.dry_kg_per_ha[i];
  }
  require(sum > 0.0, "mapped grain is above zero");
  std::vector<double> out;
  for (const double dry : m.dry_kg_per_ha) out.push_back(dry * load.value() * area / sum);
  return out;
}

YieldPattern spread_of(const MappedField& m, const std::vector<double>& straw, KgPerHa load) {
  Weighted cells;
  double area = 0.0, squares = 0.0;
  for (std::size_t i = 0; i < straw.size(); ++i) {
    cells.emplace_back(straw[i], m.cells[i].share);
    area += m.cells[i].share;
    squares += m.cells[i].share * (straw[i] - load.value()) * (straw[i] - load.value());
  }
  std::sort(cells.begin(), cells.end());
  YieldPattern p;
  p.p10_kg_per_ha = weighted_quantile(cells, 0.1);
  p.p90_kg_per_ha = weighted_quantile(cells, 0.9);
  p.cv = load.value() > 0.0 ? std::sqrt(squares / area) / load.value() : 0.0;
  p.mapped_dry_grain = m.mean;
  p.points = m.points;
  return p;
}

/// Mean load of the patch's cells by their area in the field.
KgPerHa load_of(const geo::Patch& patch, const MappedField& m, const std::vector<double>& straw) {
  double area = 0.0, sum = 0.0;
  for (std::size_t i = 0; i < straw.size(); ++i) {
    if (!std::binary_search(patch.cells.begin(), patch.cells.end(), m.cells[i].cell)) continue;
    area += m.cells[i].share;
    sum += m.cells[i].share * straw[i];
  }
  return KgPerHa{area > 0.0 ? sum / area : 0.0};
}

YieldPattern with_zones(YieldPattern p, const MappedField& m, const std::vector<double>& straw,
                        const Field& field, const MapSettings& s) {
  p.heavy_from_kg_per_ha = s.heavy_kg_per_ha.value_or(s.heavy_over_mean * field.straw_load.value());
  std::vector<bool> heavy(m.frame.size(), false);
  for (std::size_t i = 0; i < straw.size(); ++i) heavy[m.cells[i].cell] = straw[i] > p.heavy_from_kg_per_ha;
  double area = 0.0, straw_there = 0.0;
  for (geo::Patch& patch : geo::patches(m.frame, heavy, field.shape)) {
    const Hectare size = geo::geodesic_area(patch.outline);
    if (size < s.smallest_zone) continue;
    const KgPerHa load = load_of(patch, m, straw);
    area += size.value();
    straw_there += size.value() * load.value();
    p.zones.push_back({std::move(patch.outline), size, load});
  }
  p.heavy_share = area / field.area.value();
  p.heavy_kg_per_ha = area > 0.0 ? straw_there / area : 0.0;
  return p;
}

/// The fields' cells in one raster; a cell on a border belongs to the field that has more of it.
class FarmGrid {
 public:
  explicit FarmGrid(const geo::Frame& frame)
      : frame_{frame}, values_(frame.size(), NAN), share_(frame.size(), 0.0) {}
  void lay(const MappedField& m, const std::vector<double>& straw) {
    for (std::size_t i = 0; i < straw.size(); ++i) {
      const auto columns = static_cast<std::size_t>(m.frame.columns);
      const auto row = static_cast<int>(m.cells[i].cell / columns) + frame_.north - m.frame.north;
      const auto column = static_cast<int>(m.cells[i].cell % columns) + m.frame.west - frame_.west;
      const std::size_t at = static_cast<std::size_t>(row) * static_cast<std::size_t>(frame_.columns) +
                             static_cast<std::size_t>(column);
      if (m.cells[i].share <= share_[at]) continue;
      share_[at] = m.cells[i].share;
      values_[at] = straw[i];
    }
  }
  [[nodiscard]] geo::Grid grid() const {
    geo::Grid g = geo::grid_of(frame_, values_);
    g.unit = "kg/ha";
    return g;
  }

 private:
  geo::Frame frame_;
  std::vector<double> values_, share_;
};

/// How far maps lie from what fields have by row, ticket or entered load.
std::vector<std::string> difference_notes(const YieldMap& map, const std::vector<ReadField>& before,
                                          const std::vector<Field>& fields) {
  std::vector<std::string> differ, only;
  for (std::size_t f = 0; f < fields.size(); ++f) {
    if (!map.patterns[f]) continue;
    const std::string& id = fields[f].id.value;
    const double hi = before[f].harvest_index;
    const double dry = fields[f].straw_load.value() * hi / (1.0 - hi);  // grain that the straw stands for
    if (map.patterns[f]->gives_mean)
      only.push_back(id);
    else if (dry > 0.0)
      differ.push_back(
          fmt::format("{} {:+.1f}", id, 100.0 * (map.patterns[f]->mapped_dry_grain.value() / dry - 1.0)));
  }
  std::vector<std::string> notes;
  if (!differ.empty())
    notes.push_back(
        "Yield map: percent by which its mean lies above the field's own figure, which counts (the map gives "
        "the "
        "pattern): " +
        listed(differ));
  if (!only.empty())
    notes.push_back("Yield map: its mean counts where there is neither a yield nor a ticket: " +
                    listed(only));
  return notes;
}

std::optional<geo::Frame> frame_of_all(const MappedGrain& grain, const std::vector<Field>& fields) {
  std::vector<geo::Shape> shapes;
  const MappedField* any = nullptr;
  for (std::size_t f = 0; f < fields.size(); ++f)
    if (grain.fields[f]) {
      shapes.push_back(fields[f].shape);
      any = &*grain.fields[f];
    }
  if (any == nullptr) return std::nullopt;
  return geo::frame_over(shapes, any->frame.centre, Metre{any->frame.cell_m});
}

}  // namespace

YieldMap straw_map(const MappedGrain& grain, const std::vector<ReadField>& before,
                   const std::vector<Field>& fields) {
  YieldMap out;
  out.notes = grain.notes;
  const auto frame = frame_of_all(grain, fields);
  if (!frame) return out;
  FarmGrid all{*frame};
  out.patterns.resize(fields.size());
  for (std::size_t f = 0; f < fields.size(); ++f) {
    const Field& field = fields[f];
    if (!grain.fields[f] || field.straw_load.value() <= 0.0) continue;
    const MappedField& m = *grain.fields[f];
    const std::vector<double> straw = straw_cells(m, field.straw_load);
    YieldPattern p = with_zones(spread_of(m, straw, field.straw_load), m, straw, field, grain.settings);
    p.gives_mean = !before[f].field.grain && !field.load_given && field.pooled_ticket.empty();
    out.patterns[f] = std::move(p);
    all.lay(m, straw);
  }
  out.straw = all.grid();
  for (std::string& note : difference_notes(out, before, fields)) out.notes.push_back(std::move(note));
  return out;
}

}  // namespace aftercut::farm
