#include <gdal_alg.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <array>

#include "aftercut/core/require.hpp"
#include "aftercut/geo/gridding.hpp"
#include "gdal.hpp"
#include "plane.hpp"

namespace aftercut::geo {
namespace {

// The wanted cells as 1 in a raster of the frame's own metres.
GDALDatasetUniquePtr as_mask(const Frame& frame, const std::vector<bool>& wanted) {
  GDALDriver* memory = GetGDALDriverManager()->GetDriverByName("MEM");
  require(memory != nullptr, "GDAL lacks a driver that comes with it");
  GDALDatasetUniquePtr data{memory->Create("", frame.columns, frame.rows, 1, GDT_Byte, nullptr)};
  require(data != nullptr, "GDAL could not make a raster in memory");
  const double cell = frame.cell_m;
  std::array<double, 6> place{frame.west * cell, cell, 0.0, frame.north * cell, 0.0, -cell};
  data->SetGeoTransform(place.data());
  std::vector<GByte> cells(wanted.begin(), wanted.end());
  const CPLErr done =
      data->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, frame.columns, frame.rows, cells.data(), frame.columns,
                                       frame.rows, GDT_Byte, 0, 0, nullptr);
  require(done == CE_None, "GDAL could not fill a raster in memory");
  return data;
}

Geometry geos_from(const Geos& geos, const OGRGeometry& g) {
  std::vector<unsigned char> bytes(g.WkbSize());
  g.exportToWkb(wkbNDR, bytes.data());
  return own(geos, GEOSGeomFromWKB_buf_r(geos.handle(), bytes.data(), bytes.size()));
}

// Outlines of groups of cells, in the frame's metres.
std::vector<Geometry> group_outlines(const Geos& geos, const Frame& frame, const std::vector<bool>& wanted) {
  const GDALDatasetUniquePtr mask = as_mask(frame, wanted);
  GDALDriver* memory = GetGDALDriverManager()->GetDriverByName("Memory");
  require(memory != nullptr, "GDAL lacks a driver that comes with it");
  const GDALDatasetUniquePtr held{memory->Create("", 0, 0, 0, GDT_Unknown, nullptr)};
  OGRLayer* layer = held->CreateLayer("groups", nullptr, wkbPolygon, nullptr);
  require(layer != nullptr, "GDAL could not make a layer in memory");
  GDALRasterBandH band = GDALRasterBand::ToHandle(mask->GetRasterBand(1));
  require(GDALPolygonize(band, band, OGRLayer::ToHandle(layer), -1, nullptr, nullptr, nullptr) == CE_None,
          "GDAL could not outline cells");
  std::vector<Geometry> out;
  for (const auto& feature : *layer) out.push_back(geos_from(geos, *feature->GetGeometryRef()));
  return out;
}

std::vector<std::size_t> cells_of(const Geos& geos, const Geometry& outline, const Frame& frame,
                                  const std::vector<bool>& wanted) {
  std::vector<std::size_t> cells;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (!wanted[i]) continue;
    const auto columns = static_cast<std::size_t>(frame.columns);
    const double x = (frame.west + static_cast<double>(i % columns) + 0.5) * frame.cell_m;
    const double y = (frame.north - static_cast<double>(i / columns) - 0.5) * frame.cell_m;
    const Geometry middle = own(geos, GEOSGeom_createPointFromXY_r(geos.handle(), x, y));
    if (GEOSContains_r(geos.handle(), outline.get(), middle.get()) == 1) cells.push_back(i);
  }
  return cells;
}

}  // namespace

std::vector<Patch> patches(const Frame& frame, const std::vector<bool>& wanted, const Shape& within) {
  require(wanted.size() == frame.size(), "each cell is wanted or not");
  if (std::none_of(wanted.begin(), wanted.end(), [](bool w) { return w; })) return {};
  start_gdal();
  const Listener listener;
  const Geos geos;
  const Geometry field = made_valid(geos, polygons_of(geos, within, azimuthal_plane(frame.centre)));
  const ToPlane back = back_from_azimuthal_plane(frame.centre);
  std::vector<Patch> out;
  for (const Geometry& outline : group_outlines(geos, frame, wanted)) {
    const Geometry cut = own(geos, GEOSIntersection_r(geos.handle(), outline.get(), field.get()));
    Patch patch{Shape{polygons_from(geos, cut.get()), {}, {}}, cells_of(geos, outline, frame, wanted)};
    if (patch.outline.polygons.empty()) continue;
    patch.outline = in_plane(std::move(patch.outline), back);
    out.push_back(std::move(patch));
  }
  std::sort(out.begin(), out.end(), [](const Patch& a, const Patch& b) { return a.cells < b.cells; });
  return out;
}

}  // namespace aftercut::geo
