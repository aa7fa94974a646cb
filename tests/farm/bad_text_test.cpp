// Faulty texts, structure, quantities and weather rows.
// Each fault gives an issue that names file, place, what was found, what is expected and what mends it.

#include "bad_rows.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {}  // namespace

TEST_CASE("faults of farm.json itself", "[regression]") {
  check_bad({
      {"cut short", [](FarmFiles& f) { only(f, "farm.json", "{\"name\": \"x\","); }, "farm.json",
       "line 1, column", "end of the file", "rest of the JSON", "cut short"},
      {"syntax", [](FarmFiles& f) { only(f, "farm.json", "{\n \"name\": \"x\"\n \"units\": \"SI\"}"); },
       "farm.json", "line 3, column", "unexpected", "JSON", "comma"},
      {"empty file", [](FarmFiles& f) { only(f, "farm.json", ""); }, "farm.json", "whole file",
       "an empty file", "a JSON object", "docs/farm-folder.md"},
      {"not UTF-8", [](FarmFiles& f) { only(f, "farm.json", "{\"name\": \"\xE9t\xE9\"}"); }, "farm.json",
       "line 1, column", "not UTF-8", "UTF-8", "encoding"},
      {"NaN", [](FarmFiles& f) { only(f, "farm.json", "{\"name\": NaN}"); }, "farm.json", "line 1, column",
       "invalid literal", "JSON", "mend"},
      {"huge number", [](FarmFiles& f) { only(f, "farm.json", "{\n\"name\": 1e999}"); }, "farm.json",
       "line 2, column 9", "1e999", "below 1e308", "is meant"},
      {"key twice", [](FarmFiles& f) { only(f, "farm.json", R"({"soils": [{"name": "a", "name": "b"}]})"); },
       "farm.json", "soils[0].name", "twice", "once", "keep one"},
      {"not UTF-8 outside texts", [](FarmFiles& f) { only(f, "farm.json", "{\"name\": \xE9}"); }, "farm.json",
       "line 1, column", "'\"name\": ?'", "JSON", "mend"},
      {"nested too deep",
       [](FarmFiles& f) {
         only(f, "farm.json", "{\"name\": " + std::string(100000, '[') + std::string(100000, ']') + "}");
       },
       "farm.json", "name[0][0]", "within one another", "less deep", "take the inner"},
      {"a device for the weather", [](FarmFiles& f) { f.farm["weather"]["file"] = "/dev/zero"; }, "/dev/zero",
       "whole file", "a device", "a file on a disk", "save"},
      {"a device for the fields", [](FarmFiles& f) { f.farm["fields"]["file"] = "/dev/zero"; }, "/dev/zero",
       "whole file", "a device", "a file on a disk", "save"},
      {"no object", [](FarmFiles& f) { only(f, "farm.json", "[1]"); }, "farm.json", "top level", "a list",
       "an object", "write an object"},
  });
}

TEST_CASE("faults against the schema", "[regression]") {
  check_bad({
      {"mistyped key", [](FarmFiles& f) { f.farm["soils"][0]["textur"] = "clay"; }, "farm.json",
       "soils[0].textur", "unknown key", "a key", "did you mean `texture`?"},
      {"missing key", [](FarmFiles& f) { f.farm["prices"].erase("diesel"); }, "farm.json", "prices.diesel",
       "missing", "diesel", "add \"diesel\": \"3.90 USD/gal\""},
      {"missing quantity", [](FarmFiles& f) { f.farm["implements"][0].erase("width"); }, "farm.json",
       "implements[0].width", "missing", "width, width_m, width_ft", "add one"},
      {"bare number", [](FarmFiles& f) { f.farm["implements"][0]["width"] = 21; }, "farm.json",
       "implements[0].width", "bare number 21", "unit, such as \"21 ft\"", "width_ft, width_m"},
      {"no unit in the text", [](FarmFiles& f) { f.farm["implements"][0]["width"] = "21"; }, "farm.json",
       "implements[0].width", "\"21\"", "unit", "\"21 ft\""},
      {"word not of the list", [](FarmFiles& f) { f.farm["tractors"][0]["drive"] = "trak"; }, "farm.json",
       "tractors[0].drive", "\"trak\"", "two_wheel", "did you mean `track`?"},
      {"text for yes or no", [](FarmFiles& f) { f.farm["operators"][0]["paid"] = "yes"; }, "farm.json",
       "operators[0].paid", "\"yes\"", "true or false", "write true or false"},
      {"chance above one", [](FarmFiles& f) { f.farm["target"]["wanted_chance"] = 80; }, "farm.json",
       "target.wanted_chance", "80", "0", "correct"},
      {"last and days", [](FarmFiles& f) { f.farm["season"]["days"] = 280; }, "farm.json", "season.last",
       "more than one of last, days", "one of them", "keep one"},
      {"sand and clay above 100 %",
       [](FarmFiles& f) {
         f.farm["soils"][0]["clay_percent"] = 70;
         f.farm["soils"][0]["sand"] = "40 %";
       },
       "farm.json", "soils[0].sand", "40 % sand with 70 % clay", "at most 100 %", "correct one"},
      {"dry limit above the wet one", [](FarmFiles& f) { f.farm["soils"][0]["dry_limit"] = 0.5; },
       "farm.json", "soils[0].dry_limit", "0.5", "below the wet limit of 0.409", "drier limit"},
      {"dry limit no share of a volume", [](FarmFiles& f) { f.farm["soils"][0]["dry_limit"] = 38; },
       "farm.json", "soils[0].dry_limit", "38", "0.7", "correct"},
      {"draft that falls in dry ground", [](FarmFiles& f) { f.farm["soils"][0]["dry_draft_gain"] = "-5 %"; },
       "farm.json", "soils[0].dry_draft_gain", "-5", "0", "correct"},
      {"a part of a day of waiting", [](FarmFiles& f) { f.farm["limits"]["most_dry_wait_days"] = 2.5; },
       "farm.json", "limits.most_dry_wait_days", "2.5", "whole", "whole"},
      {"organic matter without sand", [](FarmFiles& f) { f.farm["soils"][0]["organic_matter"] = "3 %"; },
       "farm.json", "soils[0].organic_matter", "organic matter without sand", "both, or neither", "add sand"},
      {"sand and bulk density",
       [](FarmFiles& f) {
         f.farm["soils"][0]["sand"] = "10 %";
         f.farm["soils"][0]["bulk_density"] = "1.2 t/m3";
       },
       "farm.json", "soils[0].bulk_density", "both sand and bulk_density", "one of the two", "keep one"},
      {"no soils", [](FarmFiles& f) { f.farm["soils"] = Json::array(); }, "farm.json", "soils",
       "an empty list", "at least one", "add an entry"},
  });
}

TEST_CASE("faults of quantities and money", "[regression]") {
  check_bad({
      {"unknown unit", [](FarmFiles& f) { f.farm["implements"][0]["width"] = "21 feets"; }, "farm.json",
       "implements[0].width", "21 feets", "brought to m", "not known"},
      {"unit of another kind", [](FarmFiles& f) { f.farm["implements"][0]["width"] = "21 kg"; }, "farm.json",
       "implements[0].width", "21 kg", "brought to m", "something else"},
      {"negative width", [](FarmFiles& f) { f.farm["implements"][0]["width"] = "-3 m"; }, "farm.json",
       "implements[0].width", "-3 m", "0.1 to 60 m", "correct"},
      {"two forms of one quantity", [](FarmFiles& f) { f.farm["implements"][0]["width_m"] = 6.4; },
       "farm.json", "implements[0].width_m", "both width and width_m", "one of the two", "keep one"},
      {"other currency", [](FarmFiles& f) { f.farm["prices"]["diesel"] = "3.9 EUR/gal"; }, "farm.json",
       "prices.diesel", "EUR", "USD/L", "write it in USD"},
      {"price without its unit", [](FarmFiles& f) { f.farm["prices"]["diesel"] = "3.9 USD"; }, "farm.json",
       "prices.diesel", "3.9 USD", "USD/L", "amount, currency and unit"},
      {"price by the wrong unit", [](FarmFiles& f) { f.farm["prices"]["diesel"] = "3.9 USD/acre"; },
       "farm.json", "prices.diesel", "3.9 USD/acre", "USD/L", "cannot be brought to L"},
      {"negative price", [](FarmFiles& f) { f.farm["prices"]["grain"] = "-0.2 USD/lb"; }, "farm.json",
       "prices.grain", "-0.44", "0 to", "correct"},
      {"negative yield", [](FarmFiles& f) { field(f, "B")["yield_kg_per_ha"] = -10; }, "fields.geojson",
       "feature 2 (field B), column yield_kg_per_ha", "-10 kg/ha", "0 to 20000", "correct"},
      {"yield without a unit", [](FarmFiles& f) { field(f, "A")["yield"] = "9200"; }, "fields.geojson",
       "feature 1 (field A), column yield", "\"9200\"", "kg/ha", "ends in its unit"},
      {"yield not a number", [](FarmFiles& f) { field(f, "A")["yield"] = "nan lb/acre"; }, "fields.geojson",
       "field A", "nan lb/acre", "number and its unit", "finite"},
      {"huge yield", [](FarmFiles& f) { field(f, "A")["yield"] = "1e999 lb/acre"; }, "fields.geojson",
       "field A", "1e999", "number and its unit", "finite"},
      {"text in a number column",
       [](FarmFiles& f) {
         field(f, "A")["moisture_percent"] = "wet";
         field(f, "B")["moisture_percent"] = "14";
       },
       "fields.geojson", "column moisture_percent", "\"wet\"", "a number", "plain number"},
      {"unknown unit of a mapped column",
       [](FarmFiles& f) {
         field(f, "C")["STRAW"] = 7;
         field(f, "C").erase("straw_load");
         f.farm["fields"]["columns"]["straw_load"] = {{"column", "STRAW"}, {"unit", "tons per hectar"}};
         f.farm["field_values"] = {{{"id", "C"}, {"straw_load", "7 t/ha"}}};
       },
       "farm.json", "fields.columns.straw_load.unit", "tons per hectar", "UDUNITS-2", "correct"},
  });
}

TEST_CASE("faults of the weather record", "[regression]") {
  const auto edit = [](const char* from, const char* to) {
    return [=](FarmFiles& f) { replace_in(f.weather, from, to); };
  };
  check_bad({
      {"missing file", [](FarmFiles& f) { f.farm["weather"]["file"] = "rain.csv"; }, "rain.csv", "whole file",
       "no such file", "", ""},
      {"empty file", [](FarmFiles& f) { f.weather = ""; }, "weather.csv", "whole file", "empty", "", ""},
      {"column without unit", edit("tmin_c", "tmin"), "weather.csv", "column tmin", "no unit", "degC",
       "end in its unit"},
      {"missing column", edit("rain_mm", "snow_mm"), "weather.csv", "column rain", "no such column", "rain",
       "name it under"},
      {"not a number", edit("2020-09-03,5.0", "2020-09-03,warm"), "weather.csv", "line 4, column tmin_c",
       "\"warm\"", "a number", "correct"},
      {"NaN", edit("2020-09-03,5.0", "2020-09-03,nan"), "weather.csv", "line 4, column tmin_c", "\"nan\"",
       "a number", "correct"},
      {"unit of another kind",
       [](FarmFiles& f) {
         f.farm["weather"]["columns"]["rain"] = {{"column", "rain_mm"}, {"unit", "degC"}};
       },
       "farm.json", "weather.columns.rain", "degC", "brought to mm", "rain_mm"},
      {"years the wrong way round",
       [](FarmFiles& f) {
         f.farm["weather"]["years"] = {{"from", 2021}, {"to", 2020}};
       },
       "farm.json", "weather.years.to", "2020", "2021", "turn"},
      {"mapped column not there", [](FarmFiles& f) { f.farm["weather"]["columns"]["rain"] = "rainmm"; },
       "farm.json", "weather.columns.rain", "rainmm", "a column of weather.csv", "did you mean `rain_mm`?"},
  });
}

TEST_CASE("a long gap, a turned-round day and impossible values in the record are told", "[regression]") {
  FarmFiles files = small_farm();
  const std::size_t a = files.weather.find("2020-11-01"), b = files.weather.find("2020-11-20");
  files.weather.erase(a, b - a);
  replace_in(files.weather, "2021-01-05,5.0,18.0", "2021-01-05,25.0,18.0");
  const Result<farm::Problem> read = read_farm(files);
  REQUIRE_FALSE(read.ok());
  CHECK(says(read.issues(), "weather.csv"));
  CHECK(says(read.issues(), "tmin 25"));
  CHECK(read.issues().size() >= 2);
}

TEST_CASE("no folder, no farm", "[regression]") {
  const Result<farm::Problem> read = farm::read("/nowhere/at/all", {});
  REQUIRE_FALSE(read.ok());
  CHECK(read.issues().front().file == "farm.json");
}
