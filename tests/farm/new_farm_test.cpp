#include "aftercut/farm/new_farm.hpp"

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "aftercut/core/save_file.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/geo/layer.hpp"
#include "aftercut/geo/table.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "scratch.hpp"

namespace fs = std::filesystem;
using namespace aftercut;
using farm::UnitSystem;
using test::Kind;
using test::says;
using test::Scratch;
using test::us_table;

namespace {

const std::string si_table =
    "name,area_ha,harvest_date,soil,yield_t_per_ha,moisture_percent\n"
    "1,20.5,2026-09-14,clay,9.25,14.5\n"
    "2,31,2026-09-30,clay,8.75,\n";

nlohmann::json farm_json(const fs::path& folder) {
  return nlohmann::json::parse(read_file(folder / "farm.json").value());
}

farm::NewFarmInput input_of(const Scratch& s, const std::string& table, UnitSystem units) {
  farm::NewFarmInput in;
  in.folder = s.path / "farm";
  in.table = s.file("fields_in.csv", table);
  in.units = units;
  return in;
}

/// Column of the written table as texts.
std::vector<std::string> column(const geo::Table& table, const std::string& name) {
  const auto at = std::find(table.columns.begin(), table.columns.end(), name);
  REQUIRE(at != table.columns.end());
  std::vector<std::string> out;
  for (const auto& row : table.rows) out.push_back(row[static_cast<std::size_t>(at - table.columns.begin())]);
  return out;
}

}  // namespace

TEST_CASE("A US farm: pooled ticket, own grain, rectangles to be drawn", "[derived]") {
  const Scratch s{"us"};
  const auto made = farm::new_farm(input_of(s, us_table, UnitSystem::us));
  INFO(test::all_text(made.issues()));
  REQUIRE(made.ok());
  const auto json = farm_json(made.value().folder);
  CHECK(json["units"] == "US");
  CHECK(json["name"] == "farm");
  CHECK(json["fields"]["file"] == "fields.csv");
  REQUIRE(json["tickets"].size() == 1);
  CHECK(json["tickets"][0]["name"] == "301");
  CHECK(json["tickets"][0]["fields"] == nlohmann::json({"North 76", "Ditch check"}));
  CHECK(json["tickets"][0]["grain"] == "1200000.0 lb");
  CHECK(json["as_of"] == "2026-10-03");
  CHECK(json["season"]["first"] == "2026-08-16");
  CHECK(json["season"]["planting_date"] == "2027-05-05");
  CHECK(json["soils"][1]["texture"] == "silty clay");
  const auto table = geo::read_table(made.value().folder / "fields.csv");
  REQUIRE(table.ok());
  CHECK(column(table.value(), "id") == std::vector<std::string>{"North 76", "Ditch check", "Low 40"});
  CHECK(column(table.value(), "area_acre") == std::vector<std::string>{"76.0000", "44.0000", "40.0000"});
  CHECK(column(table.value(), "yield_lb_per_acre") == std::vector<std::string>{"", "", "8800.0"});
  CHECK(column(table.value(), "soil")[2] == "Silty clay, deep");
}

TEST_CASE("An SI farm from yields", "[derived]") {
  const Scratch s{"si"};
  const auto made = farm::new_farm(input_of(s, si_table, UnitSystem::si));
  REQUIRE(made.ok());
  const auto json = farm_json(made.value().folder);
  CHECK(json["units"] == "SI");
  CHECK_FALSE(json.contains("tickets"));
  CHECK(json["implements"][0]["width"] == "7.6 m");
  const auto table = geo::read_table(made.value().folder / "fields.csv");
  REQUIRE(table.ok());
  CHECK(column(table.value(), "yield_kg_per_ha") == std::vector<std::string>{"9250.0", "8750.0"});
  CHECK(column(table.value(), "moisture_percent") == std::vector<std::string>{"14.5", ""});
  CHECK(column(table.value(), "cut") == std::vector<std::string>{"yes", "yes"});
}

TEST_CASE("At most eight guesses, each with the place to change it; weather comes first when there is none",
          "[identity]") {
  const Scratch s{"guesses"};
  auto in = input_of(s, si_table, UnitSystem::si);
  const auto made = farm::new_farm(in);
  REQUIRE(made.ok());
  const auto& guesses = made.value().guesses;
  REQUIRE(guesses.size() == 8);
  CHECK(guesses[0].what.find("No weather") == 0);
  for (const auto& g : guesses) {
    CHECK_FALSE(g.what.empty());
    CHECK_FALSE(g.change.empty());
  }
  in.folder = s.path / "with weather";
  in.weather = s.file("w.csv", "date,tmin_c,tmax_c,rain_mm\n2026-09-01,10,30,0\n");
  const auto second = farm::new_farm(in);
  REQUIRE(second.ok());
  CHECK(second.value().guesses.size() == 7);
  CHECK(read_file(in.folder / "weather.csv").value() == read_file(*in.weather).value());
}

TEST_CASE("Fields harvested after as_of are not cut", "[derived]") {
  const Scratch s{"as_of"};
  auto in = input_of(s, si_table, UnitSystem::si);
  in.as_of = make_date(2026, 9, 20);
  const auto made = farm::new_farm(in);
  REQUIRE(made.ok());
  CHECK(farm_json(in.folder)["as_of"] == "2026-09-20");
  CHECK(column(geo::read_table(in.folder / "fields.csv").value(), "cut") ==
        std::vector<std::string>{"yes", "no"});
  in.folder = s.path / "late";
  in.as_of = make_date(2028, 1, 1);
  const auto late = farm::new_farm(in);
  REQUIRE_FALSE(late.ok());
  CHECK(says(late.issues(), "--as-of"));
  CHECK_FALSE(fs::exists(in.folder));
}

TEST_CASE("A harvest in autumn south of the equator is planted in November", "[derived]") {
  const Scratch s{"south"};
  const auto made = farm::new_farm(
      input_of(s, "field,area_ha,harvest,soil,grain_t\na,20,2026-04-10,clay,190\n", UnitSystem::si));
  REQUIRE(made.ok());
  const auto json = farm_json(made.value().folder);
  CHECK(json["site"]["latitude_deg"].get<double>() < 0.0);
  CHECK(json["season"]["planting_date"] == "2026-11-05");
  CHECK(json["water"]["on"] == "03-01");
}

namespace {

/// Two touching squares with names, and one that the table does not name.
fs::path boundaries_in(const Scratch& s, const std::string& second_name = "2") {
  geo::LayerToWrite layer{"b", {{"paddock", 't'}, {"crop", 't'}}, {}};
  const std::vector<std::string> names{"1", second_name, "other"};
  for (std::size_t i = 0; i < names.size(); ++i) {
    geo::Feature f;
    f.row = static_cast<int>(i) + 1;
    f.values = {{"paddock", names[i]}, {"crop", "rice"}};
    f.shape = geo::rectangle({-140.0 + 0.01 * static_cast<double>(i), 39.2}, Hectare{20.0}, 1.0);
    layer.features.push_back(f);
  }
  const auto file = geo::write_geojson(s.path / "b.geojson", layer);
  REQUIRE(file.ok());
  return file.value();
}

}  // namespace

TEST_CASE("Boundaries are joined by the column that holds the names; their area holds", "[derived]") {
  const Scratch s{"boundaries"};
  auto in = input_of(
      s, "field,area_ha,harvest,soil,grain_t\n1,20.1,2026-09-14,clay,190\n2,25,2026-09-30,clay,170\n",
      UnitSystem::si);
  in.boundaries = boundaries_in(s);
  const auto made = farm::new_farm(in);
  INFO(test::all_text(made.issues()));
  REQUIRE(made.ok());
  const auto json = farm_json(in.folder);
  CHECK(json["fields"]["file"] == "fields.geojson");
  CHECK(json["site"]["latitude_deg"].get<double>() == Approx(39.202).margin(0.001));
  CHECK(json["site"]["utc_offset_h"] == -9);
  const auto layer = geo::read_layer(in.folder / "fields.geojson");
  REQUIRE(layer.ok());
  REQUIRE(layer.value().features.size() == 2);
  const auto& second = layer.value().features[1];
  CHECK(second.values.at("id") == "2");
  CHECK_FALSE(second.values.contains("area_ha"));
  test::check({{"area of the second", "the square drawn", Kind::identity, 20.0,
                geo::geodesic_area(second.shape).value(), 1e-4},
               {"its yield is grain by the boundary's area", "170 t / 20 ha", Kind::derived, 8500.0,
                std::stod(second.values.at("yield_kg_per_ha")), 0.11}});
  REQUIRE(made.value().notes.size() == 2);  // 25 ha against 20 ha; the polygon "other"
  CHECK(made.value().notes[0].find("2:") == 0);
  CHECK(made.value().notes[1].find("'other'") != std::string::npos);
}

TEST_CASE("Boundaries make the area column unneeded, and have to be one to a row", "[derived]") {
  const Scratch s{"boundary_faults"};
  const std::string table = "field,harvest,soil,grain_t\n1,2026-09-14,clay,190\n2,2026-09-30,clay,170\n";
  auto in = input_of(s, table, UnitSystem::si);
  in.boundaries = boundaries_in(s);
  CHECK(farm::new_farm(in).ok());
  in.folder = s.path / "missing";
  in.boundaries = boundaries_in(s, "3");
  const auto missing = farm::new_farm(in);
  REQUIRE_FALSE(missing.ok());
  CHECK(says(missing.issues(), "field '2'"));
  CHECK(says(missing.issues(), "no boundary of that name"));
  in.boundaries = boundaries_in(s, "1");
  const auto twice = farm::new_farm(in);
  REQUIRE_FALSE(twice.ok());
  CHECK(says(twice.issues(), "2 boundaries of that name"));
  in.table = s.file("stranger.csv", "field,harvest,soil,grain_t\nNobody,2026-09-14,clay,190\n");
  const auto stranger = farm::new_farm(in);
  REQUIRE_FALSE(stranger.ok());
  CHECK(says(stranger.issues(), "no column that holds names of the table"));
  CHECK_FALSE(fs::exists(in.folder));
}

TEST_CASE("Every fault of the table is found at once and nothing is written", "[regression]") {
  const Scratch s{"faults"};
  const auto made = farm::new_farm(input_of(s,
                                            "field,area_ha,harvest,soil,grain_t\n"
                                            "a,twenty,2026-09-14,clay,190\n"
                                            "a,20,14/9/2026,clay,-3\n"
                                            ",20,2026-02-30,,190\n",
                                            UnitSystem::si));
  REQUIRE_FALSE(made.ok());
  const Issues issues = made.issues();
  CHECK(issues.size() == 7);
  for (const char* part : {"line 2, area", "'twenty'", "line 3, harvest day", "'14/9/2026'", "line 3, grain",
                           "'-3'", "line 4, name", "'2026-02-30'", "line 4, soil", "as on line 2"})
    CHECK(says(issues, part));
  CHECK_FALSE(fs::exists(s.path / "farm"));
}

TEST_CASE("Nothing that is there is overwritten", "[regression]") {
  const Scratch s{"overwrite"};
  const auto in = input_of(s, si_table, UnitSystem::si);
  REQUIRE(farm::new_farm(in).ok());
  const std::string before = read_file(in.folder / "farm.json").value();
  const auto again = farm::new_farm(in);
  REQUIRE_FALSE(again.ok());
  CHECK(says(again.issues(), "farm.json"));
  CHECK(says(again.issues(), "nothing is overwritten"));
  CHECK(read_file(in.folder / "farm.json").value() == before);
  auto no_table = in;
  no_table.folder = s.path / "second";
  no_table.table = s.path / "none.csv";
  no_table.weather = s.path / "none either.csv";
  const auto both = farm::new_farm(no_table);
  REQUIRE_FALSE(both.ok());
  CHECK(both.issues().size() == 2);
}

TEST_CASE("Harvests that do not fit one season are refused", "[regression]") {
  const Scratch s{"season"};
  const auto made = farm::new_farm(
      input_of(s, "field,area_ha,harvest,soil,grain_t\na,1,2026-09-14,clay,9\nb,1,2027-03-14,clay,9\n",
               UnitSystem::si));
  REQUIRE_FALSE(made.ok());
  CHECK(says(made.issues(), "365 days"));
}

TEST_CASE("What is written can be read as it stands, in either unit system", "[identity]") {
  const Scratch s{"read_back"};
  auto in = input_of(s, us_table, UnitSystem::us);
  in.weather = fs::path{AFTERCUT_SOURCE_DIR} / "weather" / "valley-30-years.csv";
  for (const UnitSystem units : {UnitSystem::us, UnitSystem::si}) {
    in.units = units;
    in.folder = s.path / (units == UnitSystem::us ? "us" : "si");
    REQUIRE(farm::new_farm(in).ok());
    const auto read = farm::read(in.folder, {});
    INFO(test::all_text(read.issues()));
    REQUIRE(read.ok());
    const farm::Farm& f = read.value().farm;
    REQUIRE(f.fields.size() == 3);
    const auto& check = f.fields[0];
    const auto& own = f.fields[1];
    CHECK(check.id.value == "Ditch check");
    CHECK(check.invented_shape);
    CHECK(check.pooled_ticket == "301");
    CHECK(own.pooled_ticket.empty());
    CHECK(read.value().years.years.size() >= 25);
    // 1,200,000 lb on 120 acres; 352,000 lb on 40 acres; areas and yields are written to 0.0001 and 0.1 of
    // their unit
    test::check({{"pooled grain", "10,000 lb/acre", Kind::derived, 11208.5116, check.grain->value(), 0.2},
                 {"own grain", "8,800 lb/acre", Kind::derived, 9863.4902, own.grain->value(), 0.2},
                 {"area", "44 acres", Kind::derived, 17.80616826, check.area.value(), 1e-4}});
  }
}
