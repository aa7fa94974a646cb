// Faulty vector files: each fault has its own issue, with its place, and nothing is printed.
#include <fcntl.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstring>

#include "aftercut/geo/layer.hpp"
#include "by_gdal.hpp"
#include "catch2/catch.hpp"
#include "drawn.hpp"

using namespace aftercut;
using namespace aftercut::geo;
using namespace aftercut::test;
using Catch::Contains;

namespace {

Issues faults(const std::filesystem::path& file) {
  const Result<Layer> layer = read_layer(file);
  for (const Issue& issue : layer.issues()) {
    UNSCOPED_INFO(to_text(issue));
    CHECK(issue.file == file.string());
    CHECK_FALSE((issue.place.empty() || issue.found.empty() || issue.expected.empty() || issue.fix.empty()));
  }
  REQUIRE_FALSE(layer.ok());
  return layer.issues();
}

std::string feature(const std::string& coordinates, const std::string& name = "A") {
  return R"({"type":"Feature","properties":{"name":")" + name +
         R"("},"geometry":{"type":"Polygon","coordinates":[)" + coordinates + "]}}";
}

std::string collection(const std::string& features) {
  return R"({"type":"FeatureCollection","features":[)" + features + "]}";
}

const std::string good = feature("[[-122,39],[-121.99,39],[-121.99,39.01],[-122,39]]");

// What the program prints on stderr while `work` runs.
template <class Work>
std::string printed(const Folder& folder, const Work& work) {
  const auto file = folder.path / "stderr.txt";
  std::fflush(stderr);
  const int kept = ::dup(2), to = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
  ::dup2(to, 2);
  work();
  std::fflush(stderr);
  ::dup2(kept, 2);
  ::close(kept);
  ::close(to);
  return bytes_of(file);
}

const std::vector<DrawnFeature> three{{"POLYGON((-122 39,-121.99 39,-121.99 39.01,-122 39))", "A", 1.0},
                                      {"POLYGON((-122.1 39,-122.09 39,-122.09 39.01,-122.1 39))", "B", 2.0},
                                      {"POLYGON((-122.2 39,-122.19 39,-122.19 39.01,-122.2 39))", "C", 3.0}};

}  // namespace

TEST_CASE("missing, empty and foreign files", "[identity]") {
  const Folder folder{"aftercut-foreign"};
  CHECK(faults(folder.path / "gone.geojson").at(0).found == "no such file");
  CHECK_THAT(faults(folder.put("empty.gpkg", "")).at(0).found, Contains("empty file"));
  CHECK_THAT(faults(folder.put("notes.txt", "just words\n")).at(0).found, Contains("not a vector file"));
  CHECK_THAT(faults(folder.put("picture.shp", std::string(500, '\x7f'))).at(0).found,
             Contains("not a vector file"));
  CHECK_THAT(faults(folder.put("table.csv", "name,acres\nA,30\n")).at(0).found,
             Contains("no layer with shapes"));
  CHECK_THAT(faults(folder.put("other.json", R"({"a":1})")).at(0).found, Contains("not a vector file"));
}

TEST_CASE("a layer without features", "[identity]") {
  const Folder folder{"aftercut-none"};
  CHECK_THAT(faults(folder.put("none.geojson", collection(""))).at(0).found, Contains("no features"));
  CHECK_THAT(faults(write_by_gdal(folder.path / "none.gpkg", "GPKG", 4326, {})).at(0).found,
             Contains("no features"));
}

TEST_CASE("a feature without geometry is named by its row", "[identity]") {
  const Folder folder{"aftercut-nogeom"};
  const auto file = folder.put(
      "gap.geojson",
      collection(good + R"(,{"type":"Feature","properties":{},"geometry":null},)" + good +
                 R"(,{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[]}})"));
  const Issues issues = faults(file);
  REQUIRE(issues.size() == 2);
  CHECK(issues[0].place == "feature 2");
  CHECK(issues[1].place == "feature 4");
  CHECK(issues[0].found == "no geometry");
}

TEST_CASE("no reference system", "[identity]") {
  const Folder folder{"aftercut-nocrs"};
  for (const auto& [driver, name] : std::vector<std::pair<const char*, const char*>>{
           {"ESRI Shapefile", "bare.shp"}, {"GPKG", "bare.gpkg"}, {"FlatGeobuf", "bare.fgb"}}) {
    CAPTURE(driver);
    CHECK(faults(write_by_gdal(folder.path / name, driver, 0, three)).at(0).found == "no reference system");
  }
}

TEST_CASE("coordinates that the reference system cannot mean", "[identity]") {
  const Folder folder{"aftercut-sense"};
  const auto metres = faults(folder.put(
      "metres.geojson",
      collection(good + "," +
                 feature("[[585000,4340000],[586000,4340000],[586000,4341000],[585000,4340000]]"))));
  REQUIRE(metres.size() == 1);
  CHECK(metres[0].place == "feature 2");
  CHECK_THAT(metres[0].found, Contains("no degrees") && Contains("585000"));
  CHECK_THAT(metres[0].fix, Contains("metres"));
  const auto swapped = faults(
      folder.put("swapped.geojson", collection(feature("[[39,-122],[39,-121.9],[39.1,-121.9],[39,-122]]"))));
  CHECK_THAT(swapped.at(0).fix, Contains("swapped"));
  const auto degrees = faults(write_by_gdal(folder.path / "degrees.gpkg", "GPKG", 32610, three));
  REQUIRE(degrees.size() == 3);
  CHECK_THAT(degrees[2].found, Contains("look like degrees"));
  const auto zone = faults(write_by_gdal(
      folder.path / "zone.gpkg", "GPKG", 2226,
      {{"POLYGON((20000000 2000000,20000100 2000000,20000100 2000100,20000000 2000000))", "far", 1.0}}));
  CHECK_THAT(zone.at(0).found, Contains("area of use"));
  CHECK(zone[0].place == "feature 1");
}

TEST_CASE("coordinates that are not numbers", "[identity]") {
  const Folder folder{"aftercut-nan"};
  const auto text = faults(
      folder.put("nan.geojson", collection(feature("[[NaN,39],[-121.99,39],[-121.99,39.01],[-122,39]]"))));
  CHECK_THAT(text.at(0).found, Contains("no valid JSON"));
  CHECK_THAT(text[0].place, Contains("byte"));
  const auto file = write_by_gdal(folder.path / "nan.shp", "ESRI Shapefile", 4326, three);
  std::string bytes = bytes_of(file);
  const double nan = std::nan("");
  const std::size_t second = 100 + 8 + 44 + 4 + 64 + 8 + 44 + 4 +
                             16;  // header, record 1 (48 + 4 points), record 2 up to its point 1
  std::memcpy(bytes.data() + second, &nan, sizeof nan);
  const auto binary = faults(folder.put("nan.shp", bytes));
  CHECK(binary.at(0).place == "feature 2");
  CHECK_THAT(binary[0].found, Contains("not a number"));
}

TEST_CASE("text that is not UTF-8", "[identity]") {
  const Folder folder{"aftercut-utf8"};
  CHECK_THAT(faults(folder.put("latin.geojson",
                               collection(feature("[[-122,39],[-121.99,39],[-121.99,39.01],[-122,39]]",
                                                  "Se\xF1ora"))))
                 .at(0)
                 .found,
             Contains("not UTF-8"));
  const auto file = write_by_gdal(folder.path / "latin.gpkg", "GPKG", 4326,
                                  {{three[0].wkt, "AAAAAAAAAA", 1.0}, {three[1].wkt, "BBBBBBBBBB", 1.0}});
  std::string bytes = bytes_of(file);
  const auto at = bytes.find("BBBBBBBBBB");
  REQUIRE(at != std::string::npos);
  bytes[at + 3] = '\xF1';
  const auto issues = faults(folder.put("latin.gpkg", bytes));
  CHECK(issues.at(0).place == "feature 2");
  CHECK_THAT(issues[0].found, Contains("'name'") && Contains("not UTF-8"));
}

TEST_CASE("a truncated file of any format is never taken for a whole one", "[cross]") {
  const Folder folder{"aftercut-torn"};
  for (const auto& [driver, name] :
       std::vector<std::pair<const char*, std::string>>{{"GeoJSON", "t.geojson"},
                                                        {"GPKG", "t.gpkg"},
                                                        {"ESRI Shapefile", "t.shp"},
                                                        {"KML", "t.kml"},
                                                        {"LIBKML", "l.kml"},
                                                        {"FlatGeobuf", "t.fgb"}}) {
    const auto file = write_by_gdal(folder.path / name, driver, 4326, three);
    const std::string bytes = bytes_of(file);
    REQUIRE(read_layer(file).ok());
    for (const double share : {0.02, 0.1, 0.3, 0.5, 0.7, 0.85, 0.95, 0.99}) {
      CAPTURE(driver, share);
      (void)folder.put(name,
                       bytes.substr(0, static_cast<std::size_t>(static_cast<double>(bytes.size()) * share)));
      std::filesystem::remove(file.string() + "-journal");
      CHECK(faults(file).size() >= 1);
    }
  }
}

TEST_CASE("broken JSON says where it breaks", "[identity]") {
  const Folder folder{"aftercut-json"};
  const std::string text = collection(good);
  const auto torn = faults(folder.put("torn.geojson", text.substr(0, text.size() - 1)));
  CHECK_THAT(torn.at(0).found, Contains("truncated"));
  CHECK_THAT(torn[0].place, Contains(std::to_string(text.size())));
  CHECK_THAT(faults(folder.put("more.geojson", text + "}")).at(0).found, Contains("no valid JSON"));
}

TEST_CASE("issues quote no bytes that are not UTF-8, of JSON or of a database", "[regression]") {
  const Folder folder{"aftercut-quoted"};
  const auto ascii = [](const Issues& issues) {
    const std::string text = to_text(issues.at(0));
    INFO(text);
    CHECK(
        std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80U; }));
  };
  std::string text = collection(good);
  text.replace(text.find("geometry"), 1, "\xE9");
  ascii(faults(folder.put("key.geojson", text)));
  ascii(faults(folder.put("bare.geojson", "{\"type\": \xE9}")));
  std::string bytes = bytes_of(write_by_gdal(folder.path / "sound.gpkg", "GPKG", 4326, three));
  const std::size_t trigger = bytes.find("CREATE TRIGGER");
  REQUIRE(trigger != std::string::npos);
  bytes.replace(trigger + 8, 3, "\xE9\xF1\xFF");
  ascii(faults(folder.put("trigger.gpkg", bytes)));
}

TEST_CASE("a Shapefile that lost its index file says so", "[identity]") {
  const Folder folder{"aftercut-shx"};
  const auto file = write_by_gdal(folder.path / "lost.shp", "ESRI Shapefile", 4326, three);
  std::filesystem::remove(folder.path / "lost.shx");
  CHECK_THAT(faults(file).at(0).found, Contains("lost.shx"));
}

TEST_CASE("a file that only points to other places is not followed", "[identity]") {
  const Folder folder{"aftercut-vrt"};
  (void)folder.put("real.geojson", collection(good));
  const auto file = folder.put(
      "points.vrt",
      "<OGRVRTDataSource><OGRVRTLayer name=\"real\"><SrcDataSource relativeToVRT=\"1\">real.geojson"
      "</SrcDataSource></OGRVRTLayer></OGRVRTDataSource>");
  CHECK_THAT(faults(file).at(0).found, Contains("not a vector file"));
}

TEST_CASE("nothing is printed on stderr", "[identity]") {
  const Folder folder{"aftercut-quiet"};
  const auto torn = folder.put("torn.kml", "<?xml version=\"1.0\"?><kml><Document>");
  const auto odd = folder.put("odd.gpkg", std::string(2000, 'x'));
  CHECK(printed(folder, [&] {
          (void)read_layer(torn);
          (void)read_layer(odd);
          (void)read_layer(folder.path / "none.shp");
          (void)write_geojson(folder.path / "no" / "folder.geojson", {"a", {}, {}});
        }).empty());
}
