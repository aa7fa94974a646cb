#include <cpl_string.h>
#include <gdal_priv.h>
#include <ogr_spatialref.h>

#include <array>
#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/geo/raster.hpp"
#include "gdal.hpp"

namespace aftercut::geo {
namespace {

constexpr double no_data = -9999.0;

bool fill_band(GDALDataset& data, const Grid& grid, const std::string& name) {
  std::array<double, 6> place{grid.left, grid.cell_x, 0.0, grid.top, 0.0, -grid.cell_y};
  OGRSpatialReference system;
  if (system.SetFromUserInput(grid.reference_system.c_str(),
                              OGRSpatialReference::SET_FROM_USER_INPUT_LIMITATIONS_get()) != OGRERR_NONE)
    return false;
  if (data.SetGeoTransform(place.data()) != CE_None || data.SetSpatialRef(&system) != CE_None) return false;
  GDALRasterBand& band = *data.GetRasterBand(1);
  band.SetNoDataValue(no_data);
  band.SetDescription(name.c_str());
  if (!grid.unit.empty()) band.SetUnitType(grid.unit.c_str());
  std::vector<float> cells;
  for (const double v : grid.values) cells.push_back(static_cast<float>(std::isnan(v) ? no_data : v));
  return band.RasterIO(GF_Write, 0, 0, grid.columns, grid.rows, cells.data(), grid.columns, grid.rows,
                       GDT_Float32, 0, 0, nullptr) == CE_None;
}

}  // namespace

Result<std::filesystem::path> write_geotiff(const std::filesystem::path& file, const Grid& grid,
                                            const std::string& name) {
  require(
      grid.columns > 0 && grid.rows > 0 &&
          grid.values.size() == static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows),
      "a raster has a value for each cell");
  start_gdal();
  const Listener listener;
  const Unfinished part{unfinished_name(file)};
  GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
  require(driver != nullptr, "GDAL lacks a driver that comes with it");
  CPLStringList options;
  options.SetNameValue("COMPRESS", "DEFLATE");
  GDALDatasetUniquePtr data{
      driver->Create(part.path.c_str(), grid.columns, grid.rows, 1, GDT_Float32, options.List())};
  const bool good = data != nullptr && fill_band(*data, grid, name);
  data.reset();
  if (!good || listener.failed())
    return Issues{{file.string(), "whole file", "could not write: " + listener.text(), "a writable place",
                   "choose another folder, free some space or change its rights"}};
  return put_in_place(part.path, file);
}

}  // namespace aftercut::geo
