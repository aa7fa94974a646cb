// Rasters out and in again, and rasters as other programs write them.

#include "aftercut/geo/raster.hpp"

#include <cmath>

#include "aftercut/geo/gridding.hpp"
#include "by_gdal.hpp"
#include "catch2/catch.hpp"
#include "drawn.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

geo::Grid numbered() {
  const geo::Frame frame{{-121.9, 39.4}, 20.0, -2, 3, 4, 3};
  geo::Grid g = geo::grid_of(frame, {1, 2, 3, 4, 5, NAN, 7, 8, 9, 10, 11, 12.5});
  g.unit = "kg/ha";
  return g;
}

bool same_values(const std::vector<double>& a, const std::vector<double>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](double x, double y) { return x == y || (std::isnan(x) && std::isnan(y)); });
}

/// A raster by GDAL with the corner at 600000, 4360000 of UTM zone 10.
std::filesystem::path by_hand(const std::filesystem::path& file, int bands, std::array<double, 6> place,
                              bool with_system, std::vector<double> values) {
  GDALAllRegister();
  GDALDatasetUniquePtr data{GetGDALDriverManager()->GetDriverByName("GTiff")->Create(
      file.c_str(), 2, 2, bands, GDT_Float64, nullptr)};
  REQUIRE(data != nullptr);
  OGRSpatialReference system;
  system.importFromEPSG(32610);
  if (place[1] != 0.0) data->SetGeoTransform(place.data());
  if (with_system) data->SetSpatialRef(&system);
  data->GetRasterBand(1)->SetNoDataValue(-1.0);
  REQUIRE(data->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, 2, 2, values.data(), 2, 2, GDT_Float64, 0, 0,
                                           nullptr) == CE_None);
  return file;
}

constexpr std::array<double, 6> north_up{600000.0, 10.0, 0.0, 4360000.0, 0.0, -10.0};

std::string found_in(const std::filesystem::path& file) {
  const auto read = geo::read_raster(file);
  REQUIRE_FALSE(read.ok());
  const Issue i = read.issues().front();
  CHECK_FALSE(i.expected.empty());
  CHECK_FALSE(i.fix.empty());
  return i.found;
}

}  // namespace

TEST_CASE("a raster comes back as it was written", "[identity]") {
  const Folder folder{"raster"};
  const geo::Grid g = numbered();
  const auto file = geo::write_geotiff(folder.path / "a.tif", g, "straw");
  REQUIRE(file.ok());
  const auto back = geo::read_raster(file.value());
  REQUIRE(back.ok());
  CHECK(same_values(back.value().values, g.values));
  CHECK(back.value().unit == "kg/ha");
  CHECK(back.value().left == -40.0);
  CHECK(back.value().top == 60.0);
  CHECK(back.value().cell_x == 20.0);
  CHECK(back.value().cell_y == 20.0);
  REQUIRE(geo::write_geotiff(folder.path / "b.tif", g, "straw").ok());
  CHECK(bytes_of(folder.path / "a.tif") == bytes_of(folder.path / "b.tif"));
}

TEST_CASE("cells of a written raster lie where the frame has them", "[cross]") {
  const Folder folder{"raster-places"};
  REQUIRE(geo::write_geotiff(folder.path / "a.tif", numbered(), "straw").ok());
  const auto samples = geo::samples_of(geo::read_raster(folder.path / "a.tif").value());
  REQUIRE(samples.ok());
  REQUIRE(samples.value().size() == 11);
  const geo::Point first = samples.value().front().at;  // middle at x -30, y +50
  const geo::Shape centre{{}, {}, {{-121.9, 39.4}}}, there{{}, {}, {first}};
  CHECK(geo::distance(centre, there).value() == Approx(std::hypot(30.0, 50.0)).margin(1e-3));
  CHECK(first.x < -121.9);
  CHECK(first.y > 39.4);
}

TEST_CASE("no-data, scale and turned rasters are heeded", "[cross]") {
  const Folder folder{"raster-forms"};
  const auto plain = geo::read_raster(by_hand(folder.path / "n.tif", 1, north_up, true, {1, 2, 3, -1}));
  REQUIRE(plain.ok());
  CHECK(same_values(plain.value().values, {1, 2, 3, NAN}));
  const auto south_up = geo::read_raster(
      by_hand(folder.path / "s.tif", 1, {600000.0, 10.0, 0.0, 4359980.0, 0.0, 10.0}, true, {3, -1, 1, 2}));
  REQUIRE(south_up.ok());
  CHECK(south_up.value().top == Approx(4360000.0));
  CHECK(same_values(south_up.value().values, {1, 2, 3, NAN}));
}

TEST_CASE("rasters that cannot be used say why", "[regression]") {
  const Folder folder{"raster-bad"};
  const std::vector<double> v{1, 2, 3, 4};
  CHECK(found_in(by_hand(folder.path / "b.tif", 2, north_up, true, v)) == "2 bands");
  CHECK(found_in(by_hand(folder.path / "r.tif", 1, north_up, false, v)) == "no reference system");
  CHECK(found_in(by_hand(folder.path / "p.tif", 1, {}, true, v)) == "no place on the ground");
  CHECK(found_in(by_hand(folder.path / "v.tif", 1, north_up, true, {-1, -1, -1, -1})) ==
        "no value in any cell");
  CHECK(found_in(folder.put("e.tif", "")).find("empty") != std::string::npos);
  CHECK(found_in(folder.put("t.tif", "not a raster")).find("not a raster") != std::string::npos);
  CHECK(found_in(folder.path / "none.tif") == "no such file");
}

TEST_CASE("points of a named reference system are brought to WGS 84", "[cross]") {
  const auto utm = geo::on_wgs84({{600000.0, 4360000.0}}, "EPSG:32610");
  REQUIRE(utm.ok());
  CHECK(utm.value()[0].x == Approx(-121.8403).margin(2e-3));
  CHECK(utm.value()[0].y == Approx(39.383).margin(2e-3));
  CHECK(geo::on_wgs84({{-121.9, 39.4}}, "EPSG:4326").value()[0] == geo::Point{-121.9, 39.4});
  CHECK(geo::on_wgs84({{1, 2}}, "EPSG:999999").issues()[0].place == "reference system");
  CHECK(geo::on_wgs84({{-121.9, 39.4}}, "EPSG:32610").issues()[0].found == "numbers that look like degrees");
  CHECK(geo::on_wgs84({{600000.0, 4360000.0}}, "EPSG:4326").issues()[0].place == "coordinates");
  CHECK_FALSE(geo::on_wgs84({{1, 2}}, "/etc/hostname").ok());
}
