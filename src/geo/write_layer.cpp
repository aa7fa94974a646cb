#include <cpl_conv.h>
#include <cpl_string.h>
#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <charconv>
#include <memory>

#include "aftercut/core/save_file.hpp"
#include "aftercut/geo/layer.hpp"
#include "gdal.hpp"

namespace aftercut::geo {
namespace {

namespace fs = std::filesystem;
using GeometryPtr = std::unique_ptr<OGRGeometry>;

// While it lives, GDAL writes this moment instead of the clock's, so that equal layers give equal files.
struct FixedMoment {
  FixedMoment() { CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", "2000-01-01T00:00:00.000Z"); }
  ~FixedMoment() { CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", nullptr); }
  FixedMoment(const FixedMoment&) = delete;
  FixedMoment& operator=(const FixedMoment&) = delete;
};

template <class Curve>
void fill(Curve& curve, const Path& path) {
  for (const Point& p : path) curve.addPoint(p.x, p.y);
}

std::unique_ptr<OGRPolygon> polygon_of(const Polygon& polygon) {
  auto out = std::make_unique<OGRPolygon>();
  const auto add = [&out](const Path& ring) {
    auto drawn = std::make_unique<OGRLinearRing>();
    fill(*drawn, ring);
    drawn->closeRings();
    out->addRingDirectly(drawn.release());
  };
  add(polygon.outer);
  for (const Path& hole : polygon.holes) add(hole);
  return out;
}

std::vector<GeometryPtr> parts_of(const Shape& shape) {
  std::vector<GeometryPtr> parts;
  for (const Polygon& polygon : shape.polygons) parts.push_back(polygon_of(polygon));
  for (const Path& path : shape.lines) {
    auto line = std::make_unique<OGRLineString>();
    fill(*line, path);
    parts.push_back(std::move(line));
  }
  for (const Point& p : shape.points) parts.push_back(std::make_unique<OGRPoint>(p.x, p.y));
  return parts;
}

// The plainest type that holds every shape of a layer.
OGRwkbGeometryType type_of(const std::vector<Feature>& features) {
  bool polygons = false, lines = false, points = false, many = false;
  for (const Feature& f : features) {
    polygons |= !f.shape.polygons.empty();
    lines |= !f.shape.lines.empty();
    points |= !f.shape.points.empty();
    many |= f.shape.polygons.size() + f.shape.lines.size() + f.shape.points.size() > 1;
  }
  if (polygons + lines + points > 1) return wkbGeometryCollection;
  if (lines) return many ? wkbMultiLineString : wkbLineString;
  if (points) return many ? wkbMultiPoint : wkbPoint;
  return many ? wkbMultiPolygon : wkbPolygon;
}

GeometryPtr geometry_of(const Shape& shape, OGRwkbGeometryType type) {
  std::vector<GeometryPtr> parts = parts_of(shape);
  if (parts.empty()) return nullptr;
  if (type == wkbPolygon || type == wkbLineString || type == wkbPoint) return std::move(parts.front());
  std::unique_ptr<OGRGeometryCollection> all{
      OGRGeometryFactory::createGeometry(type)->toGeometryCollection()};
  for (GeometryPtr& part : parts) all->addGeometryDirectly(part.release());
  return all;
}

OGRFieldType kind_of(char kind) {
  require(kind == 't' || kind == 'd' || kind == 'i', "a column kind is t, d or i");
  return kind == 't' ? OFTString : kind == 'd' ? OFTReal : OFTInteger64;
}

template <class Number>
Number number_of(const std::string& text) {
  Number n{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
  require(error == std::errc{} && end == text.data() + text.size(),
          fmt::format("'{}' is not the number that its column holds", text));
  return n;
}

void set_value(OGRFeature& feature, int i, char kind, const std::string& text) {
  if (kind == 'd') feature.SetField(i, number_of<double>(text));
  if (kind == 'i') feature.SetField(i, static_cast<GIntBig>(number_of<long long>(text)));
  if (kind == 't') feature.SetField(i, text.c_str());
}

bool add_feature(OGRLayer& target, const LayerToWrite& layer, const Feature& given, OGRwkbGeometryType type) {
  const OGRFeatureUniquePtr feature{OGRFeature::CreateFeature(target.GetLayerDefn())};
  for (int i = 0; i < static_cast<int>(layer.columns.size()); ++i) {
    const auto& [name, kind] = layer.columns[static_cast<std::size_t>(i)];
    const auto value = given.values.find(name);
    if (value != given.values.end() && !value->second.empty()) set_value(*feature, i, kind, value->second);
  }
  feature->SetGeometryDirectly(geometry_of(given.shape, type).release());
  return target.CreateFeature(feature.get()) == OGRERR_NONE;
}

bool add_layer(GDALDataset& data, const LayerToWrite& layer, CPLStringList options) {
  OGRSpatialReference wgs84;
  wgs84.importFromEPSG(4326);
  wgs84.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  const OGRwkbGeometryType type = type_of(layer.features);
  OGRLayer* target = data.CreateLayer(layer.name.c_str(), &wgs84, type, options.List());
  if (target == nullptr) return false;
  for (const auto& [name, kind] : layer.columns) {
    OGRFieldDefn column{name.c_str(), kind_of(kind)};
    if (target->CreateField(&column) != OGRERR_NONE) return false;
  }
  return std::all_of(layer.features.begin(), layer.features.end(),
                     [&](const Feature& f) { return add_feature(*target, layer, f, type); });
}

struct Format {
  const char* driver;
  CPLStringList layer_options;
};

Result<fs::path> write(const fs::path& file, const std::vector<LayerToWrite>& layers, const Format& format) {
  start_gdal();
  const Listener listener;
  const FixedMoment moment;
  const Unfinished part{unfinished_name(file)};
  GDALDriver* driver = GetGDALDriverManager()->GetDriverByName(format.driver);
  require(driver != nullptr, "GDAL lacks a driver that comes with it");
  GDALDatasetUniquePtr data{driver->Create(part.path.c_str(), 0, 0, 0, GDT_Unknown, nullptr)};
  bool good = data != nullptr;
  for (const LayerToWrite& layer : layers) good = good && add_layer(*data, layer, format.layer_options);
  data.reset();
  if (!good || listener.failed())
    return Issues{{file.string(), "whole file", "could not write: " + listener.text(), "a writable place",
                   "choose another folder, free some space or change its rights"}};
  return put_in_place(part.path, file);
}

}  // namespace

Result<fs::path> write_geopackage(const fs::path& file, const std::vector<LayerToWrite>& layers) {
  return write(file, layers, {"GPKG", {}});
}

Result<fs::path> write_geojson(const fs::path& file, const LayerToWrite& layer) {
  CPLStringList options;
  options.SetNameValue("RFC7946", "YES");
  options.SetNameValue("COORDINATE_PRECISION", "9");  // 0.1 mm
  return write(file, {layer}, {"GeoJSON", options});
}

}  // namespace aftercut::geo
