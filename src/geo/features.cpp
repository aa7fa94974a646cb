#include "features.hpp"

#include <cpl_string.h>
#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <optional>

#include "gdal.hpp"
#include "plane.hpp"

namespace aftercut::geo {
namespace {

namespace fs = std::filesystem;

// Arcs become chords of at most this angle: the area of a full circle is short by 1.3e-5. Source: ArcStep
// (assumed)
constexpr double arc_step_deg = 0.5;
// Degrees that a feature may lie outside its reference system's area of use. Source: AreaOfUseMargin
// (assumed)
constexpr double area_of_use_margin_deg = 10.0;

struct Place {
  const fs::path& file;
  int row;
};

Issue fault(const Place& at, std::string found, std::string expected, std::string fix) {
  return {at.file.string(), fmt::format("feature {}", at.row), std::move(found), std::move(expected),
          std::move(fix)};
}

Path path_of(const OGRSimpleCurve& curve) {
  Path path;
  for (int i = 0; i < curve.getNumPoints(); ++i) path.push_back({curve.getX(i), curve.getY(i)});
  return path;
}

Path ring_of(const OGRSimpleCurve& curve) {
  Path ring = path_of(curve);
  if (!ring.empty() && !(ring.front() == ring.back())) ring.push_back(ring.front());
  return ring;
}

Polygon polygon_of(const OGRPolygon& g) {
  Polygon polygon;
  if (g.getExteriorRing() != nullptr) polygon.outer = ring_of(*g.getExteriorRing());
  for (int i = 0; i < g.getNumInteriorRings(); ++i) polygon.holes.push_back(ring_of(*g.getInteriorRing(i)));
  return polygon;
}

// Adds a straight-edged geometry to the shape; the name of a kind that has no place in it is given back.
std::optional<std::string> add(Shape& shape, const OGRGeometry& g) {
  switch (wkbFlatten(g.getGeometryType())) {
    case wkbPolygon:
    case wkbTriangle:
      shape.polygons.push_back(polygon_of(*g.toPolygon()));
      return {};
    case wkbLineString:
      shape.lines.push_back(path_of(*g.toLineString()));
      return {};
    case wkbPoint:
      shape.points.push_back({g.toPoint()->getX(), g.toPoint()->getY()});
      return {};
    case wkbMultiPolygon:
    case wkbMultiLineString:
    case wkbMultiPoint:
    case wkbGeometryCollection: {
      for (const OGRGeometry* part : *g.toGeometryCollection())
        if (auto odd = add(shape, *part)) return odd;
      return {};
    }
    default:
      return std::string{g.getGeometryName()};
  }
}

std::string field_text(const OGRFeature& feature, int i) {
  const OGRFieldDefn& column = *feature.GetFieldDefnRef(i);
  if (!feature.IsFieldSetAndNotNull(i)) return {};
  int year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0, zone = 0;
  if (column.GetType() == OFTDate &&
      feature.GetFieldAsDateTime(i, &year, &month, &day, &hour, &minute, &second, &zone))
    return fmt::format("{:04}-{:02}-{:02}", year, month, day);
  return const_cast<OGRFeature&>(feature).GetFieldAsString(i);  // GDAL formats into a buffer of the feature
}

Issues read_values(const OGRFeature& feature, const Place& at, std::map<std::string, std::string>& values) {
  Issues issues;
  for (int i = 0; i < feature.GetFieldCount(); ++i) {
    const std::string name = feature.GetFieldDefnRef(i)->GetNameRef(), text = field_text(feature, i);
    if (!CPLIsUTF8(text.c_str(), static_cast<int>(text.size())))
      issues.push_back(fault(at, fmt::format("bytes in column '{}' that are not UTF-8 text", name),
                             "UTF-8 text",
                             "save the file in UTF-8, or state its encoding (Shapefile: a .cpg file)"));
    else if (!text.empty())
      values[name] = text;
  }
  return issues;
}

std::optional<Issue> raw_fault(const Extent& e, const OGRSpatialReference& system, const Place& at) {
  if (std::isnan(e.x0))
    return fault(at, "a coordinate that is not a number", "finite coordinates", "draw the feature again");
  const std::string where = fmt::format("x {:.6g} to {:.6g}, y {:.6g} to {:.6g}", e.x0, e.x1, e.y0, e.y1);
  const double unit = system.IsGeographic() ? system.GetAngularUnits() * 180.0 / std::numbers::pi : 1.0;
  const auto outside = [&e, unit](double x, double y) {
    return std::fmax(-e.x0, e.x1) * unit > x || std::fmax(-e.y0, e.y1) * unit > y;
  };
  if (system.IsGeographic() && outside(180.0, 90.0)) {
    const bool swapped = std::fmax(-e.x0, e.x1) * unit <= 90.0 && std::fmax(-e.y0, e.y1) * unit <= 180.0;
    return fault(
        at, "coordinates that are no degrees: " + where,
        "longitude within 180 and latitude within 90 degrees",
        swapped ? "latitude and longitude look swapped: write longitude first"
                : "the numbers look like metres or feet: state the projected reference system they are in");
  }
  if (system.IsProjected() && !outside(180.0, 90.0))
    return fault(at, "numbers that look like degrees: " + where,
                 "coordinates in the units of the file's reference system",
                 "state a geographic reference system (EPSG:4326) or export the layer again");
  return {};
}

// What is impossible about coordinates on WGS 84.
std::optional<Issue> placed_fault(const Extent& e, const OGRSpatialReference& system, const Place& at) {
  const std::string where =
      fmt::format("longitude {:.5f} to {:.5f}, latitude {:.5f} to {:.5f}", e.x0, e.x1, e.y0, e.y1);
  const std::string fix = "check which reference system the coordinates are really in";
  if (std::isnan(e.x0) || e.x0 < -180.0 || e.x1 > 180.0 || e.y0 < -90.0 || e.y1 > 90.0)
    return fault(at, "coordinates outside the Earth: " + where, "a place on the Earth", fix);
  double west = 0.0, south = 0.0, east = 0.0, north = 0.0;
  const bool known =
      system.GetAreaOfUse(&west, &south, &east, &north, nullptr) && west > -1000.0 && west < east;
  const double m = area_of_use_margin_deg;
  if (known && (e.x0 < west - m || e.x1 > east + m || e.y0 < south - m || e.y1 > north + m))
    return fault(
        at, "a place far outside the reference system's area of use: " + where,
        fmt::format("longitude {:.1f} to {:.1f}, latitude {:.1f} to {:.1f}", west, east, south, north), fix);
  return {};
}

Issues read_shape(const OGRGeometry& given, const ToWgs84& to, const Place& at, Shape& shape) {
  std::unique_ptr<OGRGeometry> straight{given.getLinearGeometry(arc_step_deg)};
  if (!straight)
    return {fault(at, "a geometry that GDAL cannot read", "polygons, lines or points", "draw it again")};
  Shape raw;
  if (const auto odd = add(raw, *straight))
    return {fault(at, "a geometry of kind " + *odd, "polygons, lines or points", "save it as polygons")};
  if (auto issue = raw_fault(extent_of(raw), *to.from, at)) return {*issue};
  if (to.change) {
    const Listener listener;
    if (straight->transform(to.change.get()) != OGRERR_NONE)
      return {fault(at, "coordinates that the reference system cannot hold: " + listener.text(),
                    "a place on the Earth", "check which reference system the coordinates are really in")};
  }
  add(shape, *straight);
  if (auto issue = placed_fault(extent_of(shape), *to.from, at)) return {*issue};
  return {};
}

}  // namespace

Result<Feature> feature_of(const OGRFeature& feature, int row, const ToWgs84& to, const fs::path& file) {
  const Place at{file, row};
  Feature out;
  out.row = row;
  Issues issues = read_values(feature, at, out.values);
  const OGRGeometry* geometry = feature.GetGeometryRef();
  if (geometry == nullptr || geometry->IsEmpty()) {
    issues.push_back(
        fault(at, "no geometry", "a polygon, line or point", "draw its boundary or take the feature out"));
  } else {
    for (Issue& issue : read_shape(*geometry, to, at, out.shape)) issues.push_back(std::move(issue));
  }
  if (!issues.empty()) return issues;
  return out;
}

}  // namespace aftercut::geo
