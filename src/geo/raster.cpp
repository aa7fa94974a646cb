#include "aftercut/geo/raster.hpp"

#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal_priv.h>
#include <gdal_utils.h>
#include <ogr_spatialref.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "features.hpp"
#include "gdal.hpp"

namespace aftercut::geo {
namespace {

namespace fs = std::filesystem;

/// Larger rasters are refused: 20 million cells are 2,000 ha at 1 m. Source: LargestRaster (assumed)
constexpr std::int64_t most_cells = 20'000'000;

Issue about_raster(const fs::path& file, std::string found, std::string expected, std::string fix) {
  return {file.string(), "whole file", std::move(found), std::move(expected), std::move(fix)};
}

// Drivers that read files; those that fetch from the network or point to other files are left out.
CPLStringList raster_drivers() {
  constexpr std::array left_out{"VRT",     "WMS",   "WMTS",       "WCS",           "OGCAPI",   "HTTP",
                                "DAAS",    "EEDAI", "STACIT",     "STACTA",        "PLMOSAIC", "NGW",
                                "DERIVED", "GTI",   "RASTERLITE", "PostGISRaster", "MBTiles"};
  CPLStringList names;
  GDALDriverManager& manager = *GetGDALDriverManager();
  for (int i = 0; i < manager.GetDriverCount(); ++i) {
    GDALDriver& driver = *manager.GetDriver(i);
    const std::string name = driver.GetDescription();
    if (driver.GetMetadataItem(GDAL_DCAP_RASTER) != nullptr &&
        driver.GetMetadataItem(GDAL_DCAP_VIRTUALIO) != nullptr &&
        std::find(left_out.begin(), left_out.end(), name) == left_out.end())
      names.AddString(name.c_str());
  }
  return names;
}

Issues raster_faults(GDALDataset& data, const fs::path& file) {
  if (data.GetRasterCount() != 1)
    return {about_raster(file, fmt::format("{} bands", data.GetRasterCount()), "one band of values",
                         "export the one band that holds the values")};
  const std::int64_t cells = static_cast<std::int64_t>(data.GetRasterXSize()) * data.GetRasterYSize();
  if (cells > most_cells)
    return {about_raster(file, fmt::format("{} cells", cells), fmt::format("at most {} cells", most_cells),
                         "cut the farm out of it, or make its cells coarser")};
  std::array<double, 6> place{};
  const OGRSpatialReference* system = data.GetSpatialRef();
  if (system == nullptr || system->IsLocal())
    return {about_raster(file, "no reference system", "a stated reference system, e.g. EPSG:4326",
                         "export it with its reference system")};
  if (data.GetGeoTransform(place.data()) != CE_None)
    return {about_raster(file, "no place on the ground", "the place of its corner and the size of its cells",
                         "export it with its place (a text grid needs its header, an image its world file)")};
  return {};
}

// The same values north up: as they are, or laid anew by GDAL.
GDALDatasetUniquePtr north_up(GDALDataset& data) {
  std::array<double, 6> place{};
  data.GetGeoTransform(place.data());
  if (place[2] == 0.0 && place[4] == 0.0 && place[1] > 0.0 && place[5] < 0.0) return nullptr;
  CPLStringList words;
  for (const char* w : {"-of", "MEM", "-ot", "Float64", "-dstnodata", "nan"}) words.AddString(w);
  GDALWarpAppOptions* how = GDALWarpAppOptionsNew(words.List(), nullptr);
  GDALDatasetH source = GDALDataset::ToHandle(&data);
  int misused = 0;
  GDALDatasetUniquePtr out{GDALDataset::FromHandle(GDALWarp("", nullptr, 1, &source, how, &misused))};
  GDALWarpAppOptionsFree(how);
  return out;
}

bool read_cells(GDALRasterBand& band, Grid& grid) {
  const std::size_t count = static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows);
  grid.values.resize(count);
  std::vector<GByte> seen(count);
  const auto read = [&grid](GDALRasterBand& from, void* to, GDALDataType type) {
    return from.RasterIO(GF_Read, 0, 0, grid.columns, grid.rows, to, grid.columns, grid.rows, type, 0, 0,
                         nullptr) == CE_None;
  };
  if (!read(band, grid.values.data(), GDT_Float64) || !read(*band.GetMaskBand(), seen.data(), GDT_Byte))
    return false;
  const double scale = band.GetScale(), offset = band.GetOffset();
  for (std::size_t i = 0; i < count; ++i) {
    double& v = grid.values[i];
    v = seen[i] == 0 || !std::isfinite(v) ? NAN : v * scale + offset;
  }
  return true;
}

Grid frame_of(GDALDataset& data) {
  Grid grid;
  std::array<double, 6> place{};
  data.GetGeoTransform(place.data());
  char* text = nullptr;
  data.GetSpatialRef()->exportToWkt(&text);
  grid.reference_system = text == nullptr ? "" : text;
  CPLFree(text);
  grid.unit = data.GetRasterBand(1)->GetUnitType();
  grid.left = place[0];
  grid.top = place[3];
  grid.cell_x = place[1];
  grid.cell_y = -place[5];
  grid.columns = data.GetRasterXSize();
  grid.rows = data.GetRasterYSize();
  return grid;
}

// Moves points to longitude and latitude; false when one of them has no place there.
bool move_to_wgs84(const OGRSpatialReference& from, std::vector<Point>& points) {
  OGRSpatialReference wgs84;
  wgs84.importFromEPSG(4326);
  wgs84.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  const std::unique_ptr<OGRCoordinateTransformation, DeleteTransformation> change{
      OGRCreateCoordinateTransformation(&from, &wgs84)};
  if (!change) return false;
  std::vector<double> x, y;
  for (const Point& p : points) {
    x.push_back(p.x);
    y.push_back(p.y);
  }
  change->Transform(static_cast<int>(x.size()), x.data(), y.data());
  bool good = true;
  for (std::size_t i = 0; i < points.size(); ++i) {
    points[i] = {x[i], y[i]};
    good = good && std::abs(x[i]) <= 180.0 && std::abs(y[i]) <= 90.0;
  }
  return good;
}

std::optional<OGRSpatialReference> system_named(const std::string& name) {
  OGRSpatialReference system;
  if (system.SetFromUserInput(name.c_str(), OGRSpatialReference::SET_FROM_USER_INPUT_LIMITATIONS_get()) !=
      OGRERR_NONE)
    return std::nullopt;
  system.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  return system;
}

}  // namespace

Result<Grid> read_raster(const fs::path& file) {
  start_gdal();
  const Listener listener;
  if (Issues issues = missing_or_empty(file); !issues.empty()) return issues;
  const CPLStringList drivers = raster_drivers();
  const GDALDatasetUniquePtr data{GDALDataset::Open(
      file.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR, drivers.List())};
  if (!data)
    return Issues{about_raster(file, "not a raster file, or a truncated one: " + listener.text(),
                               "a raster (GeoTIFF, text grid ...)", "export or copy the file again")};
  if (Issues issues = raster_faults(*data, file); !issues.empty()) return issues;
  const GDALDatasetUniquePtr laid = north_up(*data);
  GDALDataset& sound = laid ? *laid : *data;
  Grid grid = frame_of(sound);
  if (!read_cells(*sound.GetRasterBand(1), grid) || listener.failed())
    return Issues{about_raster(file, "a damaged or truncated file: " + listener.text(), "a whole file",
                               "export or copy the file again")};
  if (std::all_of(grid.values.begin(), grid.values.end(), [](double v) { return std::isnan(v); }))
    return Issues{
        about_raster(file, "no value in any cell", "at least one value", "export the band with its values")};
  return grid;
}

Result<std::vector<Sample>> samples_of(const Grid& grid) {
  start_gdal();
  const Listener listener;
  std::vector<Point> places;
  std::vector<Sample> out;
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column) {
      const double v = grid.values[static_cast<std::size_t>(row) * static_cast<std::size_t>(grid.columns) +
                                   static_cast<std::size_t>(column)];
      if (std::isnan(v)) continue;
      places.push_back({grid.left + (column + 0.5) * grid.cell_x, grid.top - (row + 0.5) * grid.cell_y});
      out.push_back({{}, v});
    }
  const auto system = system_named(grid.reference_system);
  if (!system || !move_to_wgs84(*system, places))
    return Issues{about_raster("raster", "cells without a place on the Earth: " + listener.text(),
                               "a reference system that leads to WGS 84",
                               "check which reference system the raster is really in")};
  for (std::size_t i = 0; i < out.size(); ++i) out[i].at = places[i];
  return out;
}

Result<std::vector<Point>> on_wgs84(const std::vector<Point>& points, const std::string& reference_system) {
  start_gdal();
  const Listener listener;
  const auto system = system_named(reference_system);
  if (!system)
    return Issues{{"points", "reference system", "'" + reference_system + "'",
                   "a reference system that PROJ knows, e.g. EPSG:32610", "correct the code"}};
  std::vector<Point> out = points;
  const auto degrees = [](const Point& p) { return std::abs(p.x) <= 180.0 && std::abs(p.y) <= 90.0; };
  const bool all_degrees = std::all_of(points.begin(), points.end(), degrees);
  const bool fits = system->IsGeographic() ? all_degrees : points.empty() || !all_degrees;
  if (!fits || !move_to_wgs84(*system, out))
    return Issues{
        {"points", "coordinates",
         system->IsGeographic() ? "numbers that are no longitudes and latitudes"
         : all_degrees          ? "numbers that look like degrees"
                                : "places that are not on the Earth",
         "coordinates of " + reference_system,
         "state the reference system that the coordinates are really in, and mind which column is x"}};
  return out;
}

}  // namespace aftercut::geo
