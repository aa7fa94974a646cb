#include "aftercut/geo/gridding.hpp"

#include <fmt/format.h>
#include <gdal_alg.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "aftercut/core/require.hpp"
#include "gdal.hpp"
#include "plane.hpp"

namespace aftercut::geo {
namespace {

Extent box_around(const std::vector<Shape>& shapes, const ToPlane& to_plane) {
  Shape corners;
  for (const Shape& shape : shapes)
    for (const Polygon& polygon : shape.polygons)
      for (const Point& p : polygon.outer) corners.points.push_back(to_plane(p));
  require(!corners.points.empty(), "a grid needs shapes to lie over");
  return extent_of(corners);
}

Geometry cell_square(const Geos& geos, const Frame& frame, int row, int column) {
  const double x = (frame.west + column) * frame.cell_m, y = (frame.north - row) * frame.cell_m;
  return polygons_of(geos, Shape{{Polygon{{{x, y},
                                           {x + frame.cell_m, y},
                                           {x + frame.cell_m, y - frame.cell_m},
                                           {x, y - frame.cell_m},
                                           {x, y}},
                                          {}}},
                                 {},
                                 {}});
}

struct PreparedDeleter {
  GEOSContextHandle_t handle;
  void operator()(const GEOSPreparedGeometry* g) const { GEOSPreparedGeom_destroy_r(handle, g); }
};
using Prepared = std::unique_ptr<const GEOSPreparedGeometry, PreparedDeleter>;

// A geometry made fast to ask; the geometry must outlive it.
Prepared prepared(const Geos& geos, const Geometry& g) {
  return Prepared{GEOSPrepare_r(geos.handle(), g.get()), PreparedDeleter{geos.handle()}};
}

double shared_part(const Geos& geos, const Geometry& field, const GEOSPreparedGeometry* fast,
                   const Geometry& cell, double cell_m) {
  if (GEOSPreparedContains_r(geos.handle(), fast, cell.get()) == 1) return 1.0;
  if (GEOSPreparedIntersects_r(geos.handle(), fast, cell.get()) != 1) return 0.0;
  const Geometry both = own(geos, GEOSIntersection_r(geos.handle(), field.get(), cell.get()));
  double area = 0.0;
  require(GEOSArea_r(geos.handle(), both.get(), &area) == 1, "GEOS gave no area");
  return std::min(1.0, area / (cell_m * cell_m));
}

}  // namespace

Point plane_centre(const std::vector<Shape>& shapes) {
  const Extent e = box_around(shapes, degrees_as_plane);
  const auto thousandths = [](double degrees) { return std::round(1000.0 * degrees) / 1000.0; };
  return {thousandths(0.5 * (e.x0 + e.x1)), thousandths(0.5 * (e.y0 + e.y1))};
}

Frame frame_over(const std::vector<Shape>& shapes, Point centre, Metre cell) {
  require(cell.value() > 0.0, "a cell has a size");
  const Extent e = box_around(shapes, azimuthal_plane(centre));
  const auto cells = [&cell](double metres) { return metres / cell.value(); };
  Frame f{centre, cell.value(), 0, 0, 0, 0};
  f.west = static_cast<int>(std::floor(cells(e.x0)));
  f.north = static_cast<int>(std::ceil(cells(e.y1)));
  f.columns = std::max(1, static_cast<int>(std::ceil(cells(e.x1))) - f.west);
  f.rows = std::max(1, f.north - static_cast<int>(std::floor(cells(e.y0))));
  return f;
}

Grid grid_of(const Frame& frame, std::vector<double> values) {
  require(values.size() == frame.size(), "a grid has a value for each cell");
  Grid g;
  g.reference_system =
      fmt::format("+proj=aeqd +lat_0={:.3f} +lon_0={:.3f} +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs",
                  frame.centre.y, frame.centre.x);
  g.left = frame.west * frame.cell_m;
  g.top = frame.north * frame.cell_m;
  g.cell_x = g.cell_y = frame.cell_m;
  g.columns = frame.columns;
  g.rows = frame.rows;
  g.values = std::move(values);
  return g;
}

std::vector<CellShare> cells_in(const Frame& frame, const Shape& shape) {
  const Geos geos;
  const Geometry field = made_valid(geos, polygons_of(geos, shape, azimuthal_plane(frame.centre)));
  const Prepared fast = prepared(geos, field);
  std::vector<CellShare> out;
  for (int row = 0; row < frame.rows; ++row)
    for (int column = 0; column < frame.columns; ++column) {
      const Geometry cell = cell_square(geos, frame, row, column);
      const double share = shared_part(geos, field, fast.get(), cell, frame.cell_m);
      if (share > 0.0)
        out.push_back({static_cast<std::size_t>(row) * static_cast<std::size_t>(frame.columns) +
                           static_cast<std::size_t>(column),
                       share});
    }
  return out;
}

std::vector<double> moving_mean(const Frame& frame, const std::vector<Sample>& samples, Metre reach) {
  std::vector<double> out(frame.size(), NAN);
  if (samples.empty()) return out;
  start_gdal();
  const Listener listener;
  std::vector<double> x, y, z;
  const ToPlane plane = azimuthal_plane(frame.centre);
  for (const Sample& s : samples) {
    const Point p = plane(s.at);
    x.push_back(p.x);
    y.push_back(p.y);
    z.push_back(s.value);
  }
  GDALGridMovingAverageOptions how{};
  how.nSizeOfStructure = sizeof(how);
  how.dfRadius1 = how.dfRadius2 = reach.value();
  how.nMinPoints = 1;
  how.dfNoDataValue = NAN;
  const double left = frame.west * frame.cell_m, top = frame.north * frame.cell_m;
  const CPLErr done =
      GDALGridCreate(GGA_MovingAverage, &how, static_cast<GUInt32>(x.size()), x.data(), y.data(), z.data(),
                     left, left + frame.columns * frame.cell_m, top, top - frame.rows * frame.cell_m,
                     static_cast<GUInt32>(frame.columns), static_cast<GUInt32>(frame.rows), GDT_Float64,
                     out.data(), nullptr, nullptr);
  require(done == CE_None && !listener.failed(), "GDAL could not lay points on a grid: " + listener.text());
  return out;
}

std::vector<std::optional<std::size_t>> holders(const std::vector<Point>& points,
                                                const std::vector<Shape>& shapes) {
  const Geos geos;
  std::vector<Geometry> fields;
  std::vector<Extent> boxes;
  for (const Shape& shape : shapes) {
    fields.push_back(made_valid(geos, polygons_of(geos, shape)));
    boxes.push_back(extent_of(shape));
  }
  std::vector<Prepared> fast;
  for (const Geometry& field : fields) fast.push_back(prepared(geos, field));
  std::vector<std::optional<std::size_t>> out(points.size());
  for (std::size_t i = 0; i < points.size(); ++i)
    for (std::size_t s = 0; s < shapes.size() && !out[i]; ++s) {
      const Point& p = points[i];
      const Extent& b = boxes[s];
      if (!(p.x >= b.x0 && p.x <= b.x1 && p.y >= b.y0 && p.y <= b.y1)) continue;
      const Geometry point = own(geos, GEOSGeom_createPointFromXY_r(geos.handle(), p.x, p.y));
      if (GEOSPreparedIntersects_r(geos.handle(), fast[s].get(), point.get()) == 1) out[i] = s;
    }
  return out;
}

}  // namespace aftercut::geo
