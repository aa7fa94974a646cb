#pragma once
// Files as other programs write them: straight through GDAL, from well-known text.

#include <cpl_string.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <filesystem>
#include <string>
#include <vector>

#include "catch2/catch.hpp"

namespace aftercut::test {

struct DrawnFeature {
  std::string wkt;  ///< in the layer's own reference system; empty: no geometry
  std::string name;
  double yield = 0.0;
};

/// Writes one layer with columns name (text) and yield (number); `epsg` 0 writes no reference system.
inline std::filesystem::path write_by_gdal(const std::filesystem::path& file, const char* driver, int epsg,
                                           const std::vector<DrawnFeature>& features,
                                           const char* option = nullptr) {
  GDALAllRegister();
  CPLPushErrorHandler(CPLQuietErrorHandler);
  {
    GDALDatasetUniquePtr data{
        GetGDALDriverManager()->GetDriverByName(driver)->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr)};
    REQUIRE(data != nullptr);
    OGRSpatialReference system;
    if (epsg != 0) system.importFromEPSG(epsg);
    system.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    CPLStringList options;
    if (option != nullptr) options.AddString(option);
    OGRLayer* layer = data->CreateLayer("fields", epsg == 0 ? nullptr : &system, wkbUnknown, options.List());
    REQUIRE(layer != nullptr);
    OGRFieldDefn name{"name", OFTString}, yield{"yield", OFTReal};
    layer->CreateField(&name);
    layer->CreateField(&yield);
    for (const DrawnFeature& f : features) {
      OGRFeatureUniquePtr feature{OGRFeature::CreateFeature(layer->GetLayerDefn())};
      feature->SetField("name", f.name.c_str());
      feature->SetField("yield", f.yield);
      OGRGeometry* geometry = nullptr;
      if (!f.wkt.empty()) OGRGeometryFactory::createFromWkt(f.wkt.c_str(), nullptr, &geometry);
      feature->SetGeometryDirectly(geometry);
      REQUIRE(layer->CreateFeature(feature.get()) == OGRERR_NONE);
    }
  }
  CPLPopErrorHandler();
  return file;
}

}  // namespace aftercut::test
