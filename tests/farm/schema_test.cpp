// The published schema, our words for departures from it, and the page that explains every key.

#include "schema.hpp"

#include <algorithm>

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "small_farm.hpp"
#include "units.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

std::string source_file(const std::string& name) {
  return read_file(std::filesystem::path{AFTERCUT_SOURCE_DIR} / name).value();
}

/// Every property name in a schema, with the number keys (name_unit) left out where the text key is there.
void gather(const Json& schema, std::vector<std::string>& names) {
  if (schema.is_object() && schema.contains("properties") && schema["properties"].is_object())
    for (const auto& item : schema["properties"].items()) names.push_back(item.key());
  for (const Json& child : schema)
    if (child.is_structured()) gather(child, names);
}

std::vector<Json> spoilt() {
  std::vector<Json> out;
  const auto add = [&out](const std::function<void(Json&)>& spoil) {
    Json farm = small_farm().farm;
    spoil(farm);
    out.push_back(farm);
  };
  add([](Json& f) { f["surplus"] = 1; });
  add([](Json& f) { f.erase("prices"); });
  add([](Json& f) { f["season"]["days"] = 200; });
  add([](Json& f) { f["season"].erase("last"); });
  add([](Json& f) { f["season"]["first"] = "1 Sept"; });
  add([](Json& f) { f["implements"][0]["width"] = 3; });
  add([](Json& f) { f["implements"][0].erase("width"); });
  add([](Json& f) { f["operators"][0]["weekdays_off"] = {"caturday"}; });
  add([](Json& f) { f["units"] = "metric"; });
  add([](Json& f) { f["currency"] = "dollars"; });
  add([](Json& f) { f["soils"] = Json::array(); });
  add([](Json& f) { f["fields"]["columns"]["id"] = 3; });
  add([](Json& f) { f["fields"]["columns"]["id"] = {{"col", "x"}}; });
  add([](Json& f) { f["target"]["wanted_chance"] = -0.1; });
  add([](Json& f) { f["weather"]["years"] = {{"from", 2000.5}}; });
  add([](Json& f) { f["name"] = ""; });
  add([](Json& f) { f["tickets"] = {{{"name", "t"}, {"fields", Json::array()}, {"grain", "3 t"}}}; });
  return out;
}

}  // namespace

TEST_CASE("our words and an independent validator agree on what departs from the schema", "[cross]") {
  CHECK(farm::schema_accepts(small_farm().farm));
  CHECK(farm::explain_schema_faults(farm::farm_schema(), small_farm().farm, "farm.json").empty());
  for (const Json& farm : spoilt()) {
    INFO(farm.dump());
    CHECK_FALSE(farm::schema_accepts(farm));
    CHECK(farm::explain_schema_faults(farm::farm_schema(), farm, "farm.json").size() == 1);
  }
}

TEST_CASE("the built-in schema is the published one", "[identity]") {
  CHECK(farm::farm_schema() == Json::parse(source_file("docs/schema/farm.schema.json")));
}

TEST_CASE("every key of the schema is explained in docs/farm-folder.md", "[identity]") {
  const std::string page = source_file("docs/farm-folder.md");
  std::vector<std::string> names;
  gather(farm::farm_schema(), names);
  CHECK(names.size() > 150);
  for (const std::string& n : names) {
    INFO(n);
    const bool told =
        page.find("`" + n + "`") != std::string::npos || page.find("\"" + n + "\"") != std::string::npos;
    CHECK(told);
  }
}

TEST_CASE("the demo farm follows the schema and reads without an issue", "[golden]") {
  const std::filesystem::path folder = std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields/demo";
  const auto read = farm::read(folder, {});
  for (const Issue& i : read.issues()) UNSCOPED_INFO(to_text(i));
  REQUIRE(read.ok());
  CHECK(read.value().farm.fields.size() >= 10);
  CHECK(read.value().years.years.size() >= 20);
}

TEST_CASE("units: US customary, SI and what growers write", "[recalled]") {
  const auto in = [](double v, const char* from, const char* to) {
    return farm::convert(v, from, to).value_or(-999.0);
  };
  check({
      {"acre in m2", "NIST811", Kind::recalled, 4046.8564224, in(1, "acre", "m2"), 1e-7},
      {"lb/acre in kg/ha", "NIST811, derived", Kind::derived, 1.1208512, in(1, "lb/acre", "kg/ha"), 5e-8},
      {"cwt/acre in kg/ha", "NIST811, derived", Kind::derived, 112.08512, in(1, "cwt/acre", "kg/ha"), 5e-6},
      {"t/ha in kg/ha", "SI", Kind::derived, 1000.0, in(1, "t/ha", "kg/ha"), 1e-9},
      {"short ton/acre in t/ha", "NIST811, derived", Kind::derived, 2.2417023, in(1, "ton/acre", "t/ha"),
       5e-8},
      {"acre-foot in m3", "NIST811", Kind::recalled, 1233.48184, in(1, "acre_foot", "m3"), 5e-6},
      {"ac-ft in m3", "NIST811", Kind::recalled, 1233.48184, in(1, "ac-ft", "m3"), 5e-6},
      {"cfs in m3/day", "derived 0.3048^3 x 86400", Kind::derived, 2446.5755, in(1, "cfs", "m3/day"), 5e-5},
      {"ft3/s in m3/day", "derived 0.3048^3 x 86400", Kind::derived, 2446.5755, in(1, "ft3/s", "m3/day"),
       5e-5},
      {"gal in L", "NIST811", Kind::recalled, 3.785411784, in(1, "gal", "L"), 1e-9},
      {"hp in kW", "NIST811", Kind::recalled, 0.74569987, in(1, "hp", "kW"), 5e-9},
      {"mph in km/h", "NIST811", Kind::recalled, 1.609344, in(1, "mph", "km/h"), 1e-9},
      {"212 degF in degC", "NIST811", Kind::recalled, 100.0, in(212, "degF", "degC"), 1e-9},
      {"psi in kPa", "NIST811", Kind::recalled, 6.894757, in(1, "psi", "kPa"), 5e-7},
      {"in/day in mm/day", "NIST811", Kind::recalled, 25.4, in(1, "in/day", "mm/day"), 1e-9},
      {"W m-2 in W/m2", "SI", Kind::derived, 1.0, in(1, "W m-2", "W/m2"), 1e-12},
      {"min/acre in min/ha", "derived", Kind::derived, 2.4710538, in(1, "min/acre", "min/ha"), 5e-8},
  });
  CHECK_FALSE(farm::convert(1, "kg", "m").has_value());
  CHECK_FALSE(farm::convert(1, "parsnip", "m").has_value());
  CHECK_FALSE(farm::is_unit(""));
  for (const auto& s : farm::unit_suffixes()) CHECK(farm::is_unit(s.unit));
}

TEST_CASE("numbers, quantities and money as texts", "[regression]") {
  CHECK(farm::split_quantity(" 8.4 t/ha ")->unit == "t/ha");
  CHECK(farm::split_quantity("+3m")->number == 3.0);
  CHECK_FALSE(farm::split_quantity("nan m"));
  CHECK_FALSE(farm::split_quantity("inf"));
  CHECK_FALSE(farm::split_quantity("1e999 m"));
  CHECK_FALSE(farm::split_quantity("about 3 m"));
  CHECK(farm::parse_number("-0.5") == -0.5);
  CHECK_FALSE(farm::parse_number("1,5"));
  CHECK(farm::split_money("3.90 USD/gal")->per == "gal");
  CHECK(farm::split_money("3.90 USD per gal")->per == "gal");
  CHECK(farm::split_money("400 USD")->per.empty());
  CHECK_FALSE(farm::split_money("$400"));
  CHECK_FALSE(farm::split_money("400 USD/"));
}

TEST_CASE("canonical JSON does not depend on the order of named entries or of keys", "[identity]") {
  const Json a = Json::parse(R"({"b": [{"id": "10"}, {"id": "2", "x": [1, 2]}], "a": 1})");
  const Json b = Json::parse(R"({"a": 1, "b": [{"x": [1, 2], "id": "2"}, {"id": "10"}]})");
  CHECK(farm::canonical(a) == farm::canonical(b));
  const Json c = Json::parse(R"({"a": 1, "b": [{"x": [2, 1], "id": "2"}, {"id": "10"}]})");
  CHECK(farm::canonical(a) != farm::canonical(c));
}
