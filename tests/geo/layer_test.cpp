// Layers read from every common format and reference system.
#include <fmt/format.h>

#include <GeographicLib/LambertConformalConic.hpp>
#include <GeographicLib/UTMUPS.hpp>
#include <cmath>
#include <functional>

#include "aftercut/geo/layer.hpp"
#include "by_gdal.hpp"
#include "catch2/catch.hpp"
#include "drawn.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::geo;
using namespace aftercut::test;

namespace {

using Project = std::function<Point(Point)>;

Point as_it_is(Point p) { return p; }

// Source: Snyder1987 (recalled): x = a lon, y = a ln tan(45 + lat/2), on the sphere of radius a.
Point web_mercator(Point p) {
  const double a = 6378137.0, rad = std::acos(-1.0) / 180.0;
  return {a * p.x * rad, a * std::log(std::tan((45.0 + p.y / 2.0) * rad))};
}

Point utm10(Point p) {
  int zone = 0;
  bool north = false;
  Point out;
  GeographicLib::UTMUPS::Forward(p.y, p.x, zone, north, out.x, out.y, 10);
  return out;
}

// EPSG:2226, California zone 2 in US survey feet. Source: EPSG2226 (recalled).
Point state_plane_feet(Point p) {
  const double foot = 1200.0 / 3937.0;
  const GeographicLib::LambertConformalConic cone{6378137.0, 1.0 / 298.257222101, 38.0 + 20.0 / 60.0,
                                                  39.0 + 50.0 / 60.0, 1.0};
  double x0 = 0.0, y0 = 0.0, x = 0.0, y = 0.0;
  cone.Forward(-122.0, 37.0 + 40.0 / 60.0, -122.0, x0, y0);
  cone.Forward(-122.0, p.y, p.x, x, y);
  return {(x + 2000000.0) / foot, (y - y0 + 500000.0) / foot};
}

std::string ring_text(const Path& path, const Project& project) {
  std::string text;
  for (const Point& p : path) {
    const Point q = project(p);
    text += fmt::format("{}{:.12f} {:.12f}", text.empty() ? "(" : ",", q.x, q.y);
  }
  return fmt::format("{})", text);
}

std::string wkt(const Polygon& polygon, const Project& project) {
  std::string text = fmt::format("POLYGON({}", ring_text(polygon.outer, project));
  for (const Path& hole : polygon.holes) text += fmt::format(",{}", ring_text(hole, project));
  return fmt::format("{})", text);
}

const Point home{-122.02, 39.21};
const Shape with_hole = one(l_ring(home, 0.003), {square({-122.019, 39.211}, 0.001)});
const Shape plain = one(square({-122.03, 39.25}, 0.004));

void check_same_places(const Shape& found, const Shape& expected, double tolerance_deg) {
  REQUIRE(found.polygons.size() == expected.polygons.size());
  check({{"area", "identity", Kind::cross, geodesic_area(expected).value(), geodesic_area(found).value(),
          1e-6 * geodesic_area(expected).value() + tolerance_deg}});
  for (std::size_t i = 0; i < found.polygons.size(); ++i) {
    REQUIRE(found.polygons[i].holes.size() == expected.polygons[i].holes.size());
    for (const Point& p : expected.polygons[i].outer) {
      double nearest = 1e9;
      for (const Point& q : found.polygons[i].outer)
        nearest = std::min(nearest, std::hypot(p.x - q.x, p.y - q.y));
      CHECK(nearest <= tolerance_deg);
    }
  }
}

Layer read_well(const std::filesystem::path& file, const std::optional<std::string>& name = {}) {
  const Result<Layer> layer = read_layer(file, name);
  for (const Issue& issue : layer.issues()) UNSCOPED_INFO(to_text(issue));
  REQUIRE(layer.ok());
  return layer.value();
}

}  // namespace

TEST_CASE("every common format gives the same fields", "[cross]") {
  const Folder folder{"aftercut-formats"};
  const std::vector<DrawnFeature> drawn{{wkt(with_hole.polygons[0], as_it_is), "Norte 1", 8.25},
                                        {wkt(plain.polygons[0], as_it_is), "Señora", 9.5}};
  const std::vector<std::pair<const char*, const char*>> formats{
      {"GeoJSON", "fields.geojson"}, {"GPKG", "fields.gpkg"}, {"ESRI Shapefile", "fields.shp"},
      {"KML", "fields.kml"},         {"LIBKML", "other.kml"}, {"FlatGeobuf", "fields.fgb"},
      {"GML", "fields.gml"}};
  for (const auto& [driver, file] : formats) {
    CAPTURE(driver);
    const Layer layer = read_well(write_by_gdal(folder.path / file, driver, 4326, drawn));
    REQUIRE(layer.features.size() == 2);
    const bool first_is_hole =
        !layer.features[0].shape.polygons.at(0).holes.empty();  // FlatGeobuf sorts by place
    const Feature& hole = layer.features[first_is_hole ? 0 : 1];
    const Feature& whole = layer.features[first_is_hole ? 1 : 0];
    check_same_places(hole.shape, with_hole, 1e-9);
    check_same_places(whole.shape, plain, 1e-9);
    CHECK(layer.features[0].row == 1);
    CHECK(layer.features[1].row == 2);
    const std::string column = std::string{driver}.ends_with("KML") ? "Name" : "name";
    CHECK((whole.values.contains(column) ? whole.values.at(column) : whole.values.at("name")) == "Señora");
  }
}

TEST_CASE("projected layers are brought to longitude and latitude", "[cross]") {
  const Folder folder{"aftercut-systems"};
  struct System {
    int epsg;
    Project project;
    const char* driver;
    const char* file;
  };
  const std::vector<System> systems{{32610, utm10, "GPKG", "utm.gpkg"},
                                    {32610, utm10, "ESRI Shapefile", "utm.shp"},
                                    {3857, web_mercator, "GPKG", "web.gpkg"},
                                    {3857, web_mercator, "FlatGeobuf", "web.fgb"},
                                    {2226, state_plane_feet, "GPKG", "feet.gpkg"},
                                    {2226, state_plane_feet, "ESRI Shapefile", "feet.shp"},
                                    {4269, as_it_is, "GPKG", "nad83.gpkg"},
                                    {4326, as_it_is, "GPKG", "wgs84.gpkg"}};
  for (const System& s : systems) {
    CAPTURE(s.epsg, s.driver);
    const Layer layer = read_well(write_by_gdal(folder.path / s.file, s.driver, s.epsg,
                                                {{wkt(with_hole.polygons[0], s.project), "1", 1.0}}));
    CHECK(layer.reference_system == fmt::format("EPSG:{}", s.epsg));
    REQUIRE(layer.features.size() == 1);
    check_same_places(layer.features[0].shape, with_hole, 2e-8);  // 2 mm
  }
}

TEST_CASE("lines, points, many parts and collections keep their kind", "[identity]") {
  const Folder folder{"aftercut-kinds"};
  const Layer layer = read_well(write_by_gdal(
      folder.path / "kinds.gpkg", "GPKG", 4326,
      {{"POINT(-122 39)", "a", 0},
       {"MULTIPOINT(-122 39,-122.1 39)", "b", 0},
       {"LINESTRING(-122 39,-122.1 39.1,-122.2 39)", "c", 0},
       {"MULTILINESTRING((-122 39,-122.1 39.1),(-122 39.2,-122.1 39.3))", "d", 0},
       {"MULTIPOLYGON(((0 0,1 0,1 1,0 0)),((5 5,6 5,6 6,5 5)))", "e", 0},
       {"GEOMETRYCOLLECTION(POINT(-122 39),LINESTRING(0 0,1 1),POLYGON((0 0,1 0,1 1,0 0)))", "f", 0},
       {"POLYGON Z((0 0 7,1 0 7,1 1 7,0 0 7))", "g", 0}}));
  const auto counts = [&](std::size_t i) {
    const Shape& s = layer.features.at(i).shape;
    return std::vector<std::size_t>{s.polygons.size(), s.lines.size(), s.points.size()};
  };
  using Counts = std::vector<std::size_t>;
  CHECK(counts(0) == Counts{0, 0, 1});
  CHECK(counts(1) == Counts{0, 0, 2});
  CHECK(counts(2) == Counts{0, 1, 0});
  CHECK(layer.features[2].shape.lines[0].size() == 3);
  CHECK(counts(3) == Counts{0, 2, 0});
  CHECK(counts(4) == Counts{2, 0, 0});
  CHECK(counts(5) == Counts{1, 1, 1});
  CHECK(counts(6) == Counts{1, 0, 0});
  CHECK(layer.features[0].shape.points[0] == Point{-122.0, 39.0});
}

TEST_CASE("a round field drawn with arcs keeps its area", "[derived]") {
  const Folder folder{"aftercut-arcs"};
  const Point centre = utm10(home);
  const double r = 400.0, pi = std::acos(-1.0);
  double gamma = 0.0, k = 0.0, x = 0.0, y = 0.0;
  int zone = 0;
  bool north = false;
  GeographicLib::UTMUPS::Forward(home.y, home.x, zone, north, x, y, gamma, k, 10);
  const std::string circle =
      fmt::format("CURVEPOLYGON(CIRCULARSTRING({0:.6f} {2:.6f},{1:.6f} {2:.6f},{0:.6f} {2:.6f}))",
                  centre.x - r, centre.x + r, centre.y);
  const Layer layer =
      read_well(write_by_gdal(folder.path / "round.gpkg", "GPKG", 32610, {{circle, "round", 1.0}}));
  check({{"pi r2 / k2", "derived", Kind::derived, pi * r * r / (k * k) / 1e4,
          geodesic_area(layer.features.at(0).shape).value(), 1e-2}});
  CHECK(layer.features[0].shape.polygons.at(0).outer.size() > 360);
}

TEST_CASE("columns come in order; an empty cell is absent; numbers and dates are plain text", "[identity]") {
  const Folder folder{"aftercut-cells"};
  const auto file = folder.put("cells.geojson", R"({"type":"FeatureCollection","features":[
    {"type":"Feature","properties":{"name":"A","acres":30,"yield":8.25,"cut":"2026-09-14","note":""},"geometry":{"type":"Point","coordinates":[-122,39]}},
    {"type":"Feature","properties":{"name":"B","acres":null,"yield":9,"cut":null},"geometry":{"type":"Point","coordinates":[-122,39]}}]})");
  const Layer layer = read_well(file);
  CHECK(layer.columns == std::vector<std::string>{"name", "acres", "yield", "cut", "note"});
  CHECK(layer.features[0].values ==
        std::map<std::string, std::string>{
            {"name", "A"}, {"acres", "30"}, {"yield", "8.25"}, {"cut", "2026-09-14"}});
  CHECK(layer.features[1].values == std::map<std::string, std::string>{{"name", "B"}, {"yield", "9"}});
}

TEST_CASE("a named layer is read, else the first with shapes", "[identity]") {
  const Folder folder{"aftercut-named"};
  const LayerToWrite a{"fields", {{"name", 't'}}, {{1, {{"name", "F"}}, plain}}};
  const LayerToWrite b{"places", {{"kind", 't'}}, {{1, {{"kind", "home"}}, Shape{{}, {}, {home}}}}};
  const auto file = folder.path / "two.gpkg";
  REQUIRE(write_geopackage(file, {a, b}).ok());
  CHECK(read_well(file).features[0].values.at("name") == "F");
  CHECK(read_well(file, "places").features[0].values.at("kind") == "home");
  const Result<Layer> none = read_layer(file, "canals");
  REQUIRE_FALSE(none.ok());
  CHECK_THAT(none.issues()[0].found, Catch::Contains("canals") && Catch::Contains("fields, places"));
}

TEST_CASE("an unclosed ring is closed; a byte-order mark does no harm", "[regression]") {
  const Folder folder{"aftercut-rings"};
  const auto file = folder.put(
      "open.geojson",
      "\xEF\xBB\xBF"
      R"({"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,1]]]}})");
  const Path ring = read_well(file).features.at(0).shape.polygons.at(0).outer;
  CHECK(ring.front() == ring.back());
  CHECK(ring.size() == 5);
}

TEST_CASE("a number that no machine holds is an issue of the layer", "[regression]") {
  const Folder folder{"aftercut-huge-number"};
  const auto file = folder.put("huge.geojson", R"({"type":"FeatureCollection","features":[],"name":2e8309})");
  const Result<Layer> layer = read_layer(file);
  REQUIRE_FALSE(layer.ok());
  CHECK_THAT(layer.issues()[0].found, Catch::Contains("2e8309"));
}
