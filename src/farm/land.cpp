// Boundaries mended, measured and compared; rectangles for fields without one.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "parts.hpp"

namespace aftercut::farm {
namespace {

constexpr Hectare smallest_field{0.01};
constexpr Hectare largest_field{10000.0};
/// Shared borders drawn twice overlap by slivers; below this an overlap is not told. Assumed.
constexpr Hectare smallest_overlap{0.02};
/// Farther than this from the site, degrees: the boundary or the site is wrong. Assumed.
constexpr double farthest_deg = 1.0;
/// A stated area that differs by more from the boundary's is told. Assumed.
constexpr double told_difference = 0.02;
constexpr double rectangle_ratio = 2.0, rectangle_gap_deg = 0.0005;

std::string kind_of(const geo::Shape& s) {
  if (!s.lines.empty()) return "a line";
  return s.points.empty() ? "no shape" : "a point";
}

bool far_away(const geo::Shape& shape, const weather::Site& site) {
  for (const geo::Polygon& p : shape.polygons)
    for (const geo::Point& q : p.outer)
      if (std::abs(q.x - site.longitude_deg) > farthest_deg ||
          std::abs(q.y - site.latitude_deg) > farthest_deg)
        return true;
  return false;
}

void check_place(const FieldRow& row, const geo::Shape& shape, const weather::Site& site) {
  if (!far_away(shape, site)) return;
  const geo::Point at = shape.polygons.front().outer.front();
  row.values.fault(
      "shape", fmt::format("a boundary at latitude {:.4f}, longitude {:.4f}", at.y, at.x),
      fmt::format("a place within {:g} degree of the site, {:.4f}, {:.4f}", farthest_deg, site.latitude_deg,
                  site.longitude_deg),
      "state the layer's true reference system, mind the order of the coordinates, or correct `site`");
}

Land::Plot drawn_plot(const FieldRow& row, const weather::Site& site) {
  if (row.shape.polygons.empty()) {
    row.values.fault("shape", kind_of(row.shape), "a polygon",
                     "draw the field's boundary as a polygon or name the layer of boundaries");
    return {row.shape, smallest_field, false, {}};
  }
  std::vector<std::string> notes;
  geo::Repaired mended = geo::repair(row.shape);
  if (mended.what) notes.push_back(fmt::format("Field {}: {}", row.id, *mended.what));
  const Hectare area = geo::geodesic_area(mended.shape);
  if (area < smallest_field || area > largest_field)
    row.values.fault("shape", fmt::format("a boundary around {:.4g} ha", area.value()),
                     fmt::format("{:g} to {:g} ha", smallest_field.value(), largest_field.value()),
                     "correct the boundary or its reference system");
  else
    check_place(row, mended.shape, site);
  const auto stated = row.values.quantity("area", "ha", {0.0, largest_field.value()});
  if (stated && std::abs(*stated - area.value()) > told_difference * area.value())
    notes.push_back(fmt::format("Field {}: stated area {:.1f} ha, boundary {:.1f} ha; the boundary counts",
                                row.id, *stated, area.value()));
  return {std::move(mended.shape), area, false, std::move(notes)};
}

Land::Plot rectangle_plot(const FieldRow& row, geo::Point corner) {
  const auto area = row.values.quantity("area", "ha", {smallest_field.value(), largest_field.value()});
  if (!row.values.has(row.values.key_of("area")))
    row.values.fault("area", "nothing", "an area, such as \"76 acre\", for a field without a boundary",
                     "add a column area_ha or area_acre, or a layer of boundaries");
  const Hectare size = area ? Hectare{*area} : smallest_field;
  return {geo::rectangle(corner, size, rectangle_ratio), size, true, {}};
}

double east_end(const geo::Shape& shape) {
  double east = -180.0;
  for (const geo::Point& p : shape.polygons.front().outer) east = std::max(east, p.x);
  return east;
}

std::vector<std::string> overlap_notes(const FieldRows& rows, const std::vector<Land::Plot>& plots) {
  std::vector<geo::Shape> shapes;
  for (const Land::Plot& p : plots) shapes.push_back(p.shape);
  std::vector<std::string> notes;
  for (const geo::Overlap& o : geo::overlaps(shapes, smallest_overlap))
    notes.push_back(fmt::format("Fields {} and {} overlap by {:.2f} ha, which counts in both",
                                rows.rows[o.a].id, rows.rows[o.b].id, o.area.value()));
  return notes;
}

}  // namespace

Land lay_out_land(const FieldRows& rows, const weather::Site& site) {
  Land land;
  geo::Point corner{site.longitude_deg, site.latitude_deg};
  for (const FieldRow& row : rows.rows) {
    if (rows.with_shapes) {
      land.plots.push_back(drawn_plot(row, site));
    } else {
      land.plots.push_back(rectangle_plot(row, corner));
      corner.x = east_end(land.plots.back().shape) + rectangle_gap_deg;
    }
  }
  if (!rows.with_shapes && !rows.rows.empty()) {
    land.notes.push_back(
        "The field table has no boundaries: shapes are invented rectangles of the stated areas");
    return land;
  }
  for (const Land::Plot& p : land.plots) land.notes.insert(land.notes.end(), p.notes.begin(), p.notes.end());
  const auto overlaps = overlap_notes(rows, land.plots);
  land.notes.insert(land.notes.end(), overlaps.begin(), overlaps.end());
  return land;
}

}  // namespace aftercut::farm
