#include "aftercut/geo/layer.hpp"

#include <cpl_string.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <nlohmann/json.hpp>

#include "aftercut/core/json_text.hpp"
#include "aftercut/core/save_file.hpp"
#include "features.hpp"
#include "gdal.hpp"

namespace aftercut::geo {
namespace {

namespace fs = std::filesystem;

Issue whole(const fs::path& file, std::string found, std::string expected, std::string fix) {
  return {file.string(), "whole file", std::move(found), std::move(expected), std::move(fix)};
}

// Drivers that read files; those that fetch from the network or point to other files are left out.
CPLStringList file_drivers() {
  constexpr std::array left_out{"OGR_VRT", "WFS", "OGCAPI", "CSW", "GMLAS", "HTTP"};
  CPLStringList names;
  GDALDriverManager& manager = *GetGDALDriverManager();
  for (int i = 0; i < manager.GetDriverCount(); ++i) {
    GDALDriver& driver = *manager.GetDriver(i);
    const std::string name = driver.GetDescription();
    if (driver.GetMetadataItem(GDAL_DCAP_VECTOR) != nullptr &&
        driver.GetMetadataItem(GDAL_DCAP_VIRTUALIO) != nullptr &&
        std::find(left_out.begin(), left_out.end(), name) == left_out.end())
      names.AddString(name.c_str());
  }
  return names;
}

bool looks_like_json(const fs::path& file) {
  constexpr std::array sequences{".geojsonl", ".geojsons", ".ndjson"};
  if (std::find(sequences.begin(), sequences.end(), file.extension()) != sequences.end()) return false;
  std::ifstream in{file, std::ios::binary};
  std::string start(64, ' ');
  in.read(start.data(), static_cast<std::streamsize>(start.size()));
  const auto first = start.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  return first != std::string::npos && start[first] == '{';
}

Issues broken_json(const fs::path& file, std::size_t size, const nlohmann::json::parse_error& error) {
  const std::string said = error.what();
  const std::string place = fmt::format("byte {}", error.byte);
  const std::string detail = in_ascii(said.substr(said.find("] ") + 2));
  if (said.find("unexpected end of input") != std::string::npos || error.byte > size)
    return {{file.string(), place, "a truncated file: " + detail, "a whole JSON file",
             "export or copy the file again"}};
  if (said.find("UTF-8") != std::string::npos)
    return {{file.string(), place, "bytes that are not UTF-8 text: " + detail, "UTF-8 text",
             "save the file in UTF-8"}};
  return {{file.string(), place, "no valid JSON: " + detail, "JSON (a coordinate is a finite number)",
           "export the file again"}};
}

// GDAL takes some broken JSON for whole (not-a-number, bytes after the end); this reads it strictly.
Issues json_faults(const fs::path& file) {
  if (!looks_like_json(file)) return {};
  const Result<std::string> text = read_file(file);
  if (!text) return text.issues();
  using nlohmann::json;
  try {
    const json dropped =
        json::parse(text.value(), [](int, json::parse_event_t, const json&) { return false; });
  } catch (const json::parse_error& error) {
    return broken_json(file, text.value().size(), error);
  } catch (const json::out_of_range& error) {
    const std::string said = error.what();
    return {{file.string(), "whole file", in_ascii(said.substr(said.find("] ") + 2)), "numbers below 1e308",
             "write the number that is meant"}};
  }
  return {};
}

// A GeoPackage is a database: its own check finds pages that are torn or missing.
Issues database_faults(GDALDataset& data, const fs::path& file) {
  if (std::string{data.GetDriverName()} != "GPKG") return {};
  OGRLayer* answer = data.ExecuteSQL("PRAGMA quick_check", nullptr, nullptr);
  std::string said = "no answer";
  if (answer != nullptr) {
    if (const OGRFeatureUniquePtr first{answer->GetNextFeature()}) said = first->GetFieldAsString(0);
    data.ReleaseResultSet(answer);
  }
  if (said == "ok") return {};
  return {whole(file, "a damaged or truncated GeoPackage: " + said, "a whole GeoPackage",
                "export or copy the file again")};
}

std::string names_of(GDALDataset& data) {
  std::vector<std::string> names;
  for (OGRLayer* layer : data.GetLayers()) names.emplace_back(layer->GetName());
  return names.empty() ? "none" : fmt::format("{}", fmt::join(names, ", "));
}

Result<OGRLayer*> choose(GDALDataset& data, const fs::path& file, const std::optional<std::string>& name) {
  if (name) {
    if (OGRLayer* layer = data.GetLayerByName(name->c_str())) return layer;
    return Issues{whole(file, fmt::format("no layer named '{}'; its layers: {}", *name, names_of(data)),
                        "the named layer", "name one of the layers that the file has")};
  }
  for (OGRLayer* layer : data.GetLayers())
    if (layer->GetGeomType() != wkbNone) return layer;
  return Issues{whole(file, fmt::format("no layer with shapes; its layers: {}", names_of(data)),
                      "a layer of shapes", "name a file with field boundaries")};
}

std::string name_of(const OGRSpatialReference& system) {
  const char* authority = system.GetAuthorityName(nullptr);
  const char* code = system.GetAuthorityCode(nullptr);
  if (authority != nullptr && code != nullptr) return fmt::format("{}:{}", authority, code);
  return system.GetName() == nullptr ? "unnamed" : system.GetName();
}

Result<ToWgs84> way_to_wgs84(OGRLayer& layer, const fs::path& file, const Listener& listener) {
  const OGRSpatialReference* from = layer.GetSpatialRef();
  const bool unknown = from == nullptr || from->IsLocal() || name_of(*from).starts_with("Undefined");
  if (unknown)
    return Issues{whole(file, "no reference system", "a stated reference system, e.g. EPSG:4326",
                        "export with its reference system (a Shapefile needs its .prj file)")};
  OGRSpatialReference wgs84;
  wgs84.importFromEPSG(4326);
  wgs84.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  ToWgs84 to{from, nullptr};
  if (from->IsSame(&wgs84)) return to;
  to.change.reset(OGRCreateCoordinateTransformation(from, &wgs84));
  if (!to.change)
    return Issues{whole(file, fmt::format("reference system {}: {}", name_of(*from), listener.text()),
                        "a reference system that leads to WGS 84", "export the layer in EPSG:4326")};
  return to;
}

Result<Layer> read_features(OGRLayer& source, const ToWgs84& to, const fs::path& file) {
  Layer layer{file.string(), name_of(*to.from), {}, {}};
  const OGRFeatureDefn& columns = *source.GetLayerDefn();
  for (int i = 0; i < columns.GetFieldCount(); ++i)
    layer.columns.emplace_back(columns.GetFieldDefn(i)->GetNameRef());
  Issues issues;
  int row = 0;
  for (const auto& feature : source) {
    Result<Feature> read = feature_of(*feature, ++row, to, file);
    if (read.ok()) {
      layer.features.push_back(std::move(read).value());
    } else {
      for (Issue& issue : read.issues()) issues.push_back(std::move(issue));
    }
  }
  if (row == 0)
    issues.push_back(whole(file, fmt::format("no features in layer '{}'", source.GetName()),
                           "at least one feature", "draw the fields or name another layer"));
  if (!issues.empty()) return issues;
  return layer;
}

}  // namespace

Result<Layer> read_layer(const fs::path& file, const std::optional<std::string>& name) {
  start_gdal();
  const Listener listener;
  if (Issues issues = missing_or_empty(file); !issues.empty()) return issues;
  if (Issues issues = json_faults(file); !issues.empty()) return issues;
  const CPLStringList drivers = file_drivers();
  const GDALDatasetUniquePtr data{GDALDataset::Open(
      file.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR, drivers.List())};
  if (!data)
    return Issues{whole(file, "not a vector file, or a truncated one: " + listener.text(),
                        "a vector file (GeoJSON, GeoPackage, Shapefile, KML, FlatGeobuf ...)",
                        "export or copy the file again")};
  if (Issues issues = database_faults(*data, file); !issues.empty()) return issues;
  const Result<OGRLayer*> source = choose(*data, file, name);
  if (!source) return source.issues();
  Result<ToWgs84> to = way_to_wgs84(*source.value(), file, listener);
  if (!to) return to.issues();
  Result<Layer> layer = read_features(*source.value(), std::move(to).value(), file);
  if (!listener.failed()) return layer;
  Issues issues = layer.issues();
  issues.insert(issues.begin(), whole(file, "a damaged or truncated file: " + listener.text(), "a whole file",
                                      "export or copy the file again"));
  return issues;
}

}  // namespace aftercut::geo
