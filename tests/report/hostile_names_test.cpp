// Names that no program likes, through every output: escaped on paper, whole in tables and layers.
#include <gdal_priv.h>
#include <ogrsf_frmts.h>
#include <unistd.h>

#include <filesystem>

#include "aftercut/core/save_file.hpp"
#include "aftercut/geo/layer.hpp"
#include "aftercut/report/exports.hpp"
#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

namespace fs = std::filesystem;

struct OutFolder {
  OutFolder() : path{fs::temp_directory_path() / ("aftercut_hostile_" + std::to_string(::getpid()))} {
    fs::remove_all(path);
  }
  ~OutFolder() { fs::remove_all(path); }
  OutFolder(const OutFolder&) = delete;
  OutFolder& operator=(const OutFolder&) = delete;
  fs::path path;
};

}  // namespace

TEST_CASE("no name becomes markup on a sheet", "[regression]") {
  const auto s = test::hostile_sample();
  const std::string plan = report::plan_json(s.problem, s.planned, s.audit);
  for (const std::string& name : report::export_names()) {
    if (!name.ends_with(".html")) continue;
    const std::string page = report::export_of(plan, name, {}).value().bytes;
    INFO(name);
    CHECK(page.find("<img") == std::string::npos);
    CHECK(page.find("&lt;img src=x") != std::string::npos);
    CHECK(page.find("Müller") != std::string::npos);
    CHECK(page.find(std::string(400, 'W')) != std::string::npos);
  }
}

TEST_CASE("hostile names come back whole from work.csv and from both layers", "[cross]") {
  const OutFolder out;
  const auto s = test::hostile_sample();
  const auto written = report::write(s.problem, s.planned, s.audit, out.path);
  for (const Issue& i : written.issues()) UNSCOPED_INFO(to_text(i));
  REQUIRE(written.ok());
  GDALAllRegister();
  const char* drivers[] = {"CSV", nullptr};
  const std::unique_ptr<GDALDataset> table{static_cast<GDALDataset*>(
      GDALOpenEx((out.path / "work.csv").c_str(), GDAL_OF_VECTOR, drivers, nullptr, nullptr))};
  REQUIRE(table);
  std::size_t found = 0, formulas = 0;
  for (const auto& row : *table->GetLayer(0)) {
    const std::string name = row->GetFieldAsString("field_name");
    found += name == test::hostile_name() ? 1 : 0;
    formulas += name == "=HYPERLINK(\"http://x\")" ? 1 : 0;
  }
  CHECK(found > 0);
  CHECK(formulas > 0);
  for (const char* name : {"fields.geojson", "fields.gpkg"}) {
    const auto layer = geo::read_layer(out.path / name);
    REQUIRE(layer.ok());
    CHECK(layer.value().features[0].values.at("name") == test::hostile_name());
  }
}

}  // namespace aftercut
