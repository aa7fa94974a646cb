// Layers written: they come back the same, whole or not at all, and equal layers give equal bytes.
#include "aftercut/core/require.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/geo/layer.hpp"
#include "catch2/catch.hpp"
#include "drawn.hpp"

using namespace aftercut;
using namespace aftercut::geo;
using namespace aftercut::test;

namespace {

const Shape written_shape = one(l_ring({-122.0, 39.0}, 0.003), {square({-121.999, 39.001}, 0.001)});

LayerToWrite fields() {
  Shape two = one(square({-122.05, 39.0}, 0.002));
  two.polygons.push_back({square({-122.06, 39.0}, 0.002), {}});
  return {"fields",
          {{"name", 't'}, {"area_ha", 'd'}, {"rank", 'i'}},
          {{1, {{"name", "Señora \"1\""}, {"area_ha", "12.125"}, {"rank", "3"}}, written_shape},
           {2, {{"name", "Two"}}, two}}};
}

std::size_t files_in(const Folder& folder) {
  const std::filesystem::directory_iterator all{folder.path};
  return static_cast<std::size_t>(std::distance(begin(all), end(all)));
}

std::vector<double> areas(const Layer& layer) {
  std::vector<double> ha;
  for (const Feature& f : layer.features) ha.push_back(geodesic_area(f.shape).value());
  return ha;
}

void check_back(const std::filesystem::path& file) {
  const Result<Layer> read = read_layer(file);
  REQUIRE(read.ok());
  const Layer& layer = read.value();
  CHECK(layer.columns == std::vector<std::string>{"name", "area_ha", "rank"});
  CHECK(layer.reference_system == "EPSG:4326");
  REQUIRE(layer.features.size() == 2);
  CHECK(layer.features[0].values == fields().features[0].values);
  CHECK(layer.features[1].values == fields().features[1].values);
  CHECK(layer.features[1].shape.polygons.size() == 2);
  for (std::size_t i = 0; i < 2; ++i)
    CHECK(areas(layer)[i] == Approx(geodesic_area(fields().features[i].shape).value()).epsilon(1e-6));
}

}  // namespace

TEST_CASE("a GeoPackage comes back as it was written", "[identity]") {
  const Folder folder{"aftercut-write"};
  const auto file = folder.path / "out.gpkg";
  REQUIRE(write_geopackage(file, {fields(), {"homes", {}, {{1, {}, Shape{{}, {}, {{-122.0, 39.0}}}}}}}).ok());
  check_back(file);
  CHECK(read_layer(file).value().features[0].shape == written_shape);
  CHECK(read_layer(file, "homes").value().features[0].shape.points[0] == Point{-122.0, 39.0});
  CHECK(files_in(folder) == 1);
}

TEST_CASE("GeoJSON comes back as it was written, in WGS 84 without a reference-system member", "[identity]") {
  const Folder folder{"aftercut-write"};
  const auto file = folder.path / "out.geojson";
  REQUIRE(write_geojson(file, fields()).ok());
  check_back(file);
  CHECK(bytes_of(file).find("\"crs\"") == std::string::npos);
  CHECK(files_in(folder) == 1);
}

TEST_CASE("a file that stands there is replaced; equal layers give equal bytes", "[identity]") {
  const Folder folder{"aftercut-write"};
  for (const char* name : {"out.gpkg", "out.geojson"}) {
    const auto file = folder.put(name, "old");
    const auto write = [&] {
      return std::string{name}.ends_with("gpkg") ? write_geopackage(file, {fields()}).ok()
                                                 : write_geojson(file, fields()).ok();
    };
    REQUIRE(write());
    const std::string first = bytes_of(file);
    REQUIRE(write());
    CHECK(first == bytes_of(file));
  }
}

TEST_CASE("mixed kinds and a feature without shape", "[identity]") {
  const Folder folder{"aftercut-write"};
  const LayerToWrite mixed{
      "all",
      {{"k", 't'}},
      {{1, {{"k", "a"}}, written_shape}, {2, {{"k", "b"}}, Shape{{}, {{{0, 0}, {1, 1}}}, {{2, 2}}}}}};
  REQUIRE(write_geopackage(folder.path / "m.gpkg", {mixed}).ok());
  const Layer back = read_layer(folder.path / "m.gpkg").value();
  CHECK(back.features[0].shape == written_shape);
  CHECK(back.features[1].shape == mixed.features[1].shape);
  const LayerToWrite gap{"gap", {{"k", 't'}}, {{1, {{"k", "a"}}, Shape{}}}};
  REQUIRE(write_geojson(folder.path / "g.geojson", gap).ok());
  CHECK(read_layer(folder.path / "g.geojson").issues().at(0).found == "no geometry");
}

TEST_CASE("a place that cannot be written is an issue and leaves nothing behind", "[identity]") {
  const Folder folder{"aftercut-write"};
  const auto blocked = folder.put("file", "x") / "out.gpkg";
  CHECK_FALSE(write_geopackage(blocked, {fields()}).ok());
  const auto result = write_geojson(folder.path / "none" / "out.geojson", fields());
  REQUIRE_FALSE(result.ok());
  CHECK(result.issues()[0].file == (folder.path / "none" / "out.geojson").string());
  std::filesystem::create_directories(folder.path / "taken.gpkg" / "inside");
  CHECK_FALSE(write_geopackage(folder.path / "taken.gpkg", {fields()}).ok());
  CHECK(files_in(folder) == 2);
}

TEST_CASE("a value that is not of its column's kind is our own fault", "[identity]") {
  const Folder folder{"aftercut-write"};
  LayerToWrite layer = fields();
  layer.features[0].values["rank"] = "3.5";
  CHECK_THROWS_AS(write_geopackage(folder.path / "out.gpkg", {layer}), InternalError);
  layer.features[0].values["rank"] = "3";
  layer.columns[0].second = 'x';
  CHECK_THROWS_AS(write_geojson(folder.path / "out.geojson", layer), InternalError);
  CHECK(files_in(folder) == 0);
}
