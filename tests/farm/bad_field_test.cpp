// Faulty fields, dates and names.
// Each fault gives an issue that names file, place, what was found, what is expected and what mends it.

#include <set>

#include "bad_rows.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {}  // namespace

TEST_CASE("faults of the field layer", "[regression]") {
  check_bad({
      {"missing file", [](FarmFiles& f) { f.farm["fields"]["file"] = "boundaries.gpkg"; }, "boundaries.gpkg",
       "whole file", "no such file", "", ""},
      {"empty file", [](FarmFiles& f) { only(f, "fields.geojson", ""); }, "fields.geojson", "whole file",
       "empty", "", ""},
      {"cut short",
       [](FarmFiles& f) {
         const std::string t = f.fields.dump();
         only(f, "fields.geojson", t.substr(0, t.size() / 2));
       },
       "fields.geojson", "byte", "truncated", "whole", "copy"},
      {"not UTF-8",
       [](FarmFiles& f) {
         std::string t = f.fields.dump();
         replace_in(t, "windrow", "wind\xE9row");
         only(f, "fields.geojson", t);
       },
       "fields.geojson", "byte", "UTF-8", "UTF-8", "UTF-8"},
      {"a point for a boundary",
       [](FarmFiles& f) {
         f.fields["features"][1]["geometry"] = {{"type", "Point"}, {"coordinates", {-121.9, 39.4}}};
       },
       "fields.geojson", "feature 2 (field B).shape", "a point", "a polygon", "draw"},
      {"far from the site",
       [](FarmFiles& f) {
         f.farm["site"]["longitude_deg"] = 121.9;
         f.fields["features"].erase(2);
         f.fields["features"].erase(1);
       },
       "fields.geojson", "(field A).shape", "longitude -121.9", "within 1 degree", "reference system"},
      {"no reference system",
       [](FarmFiles& f) {
         f.farm["fields"]["file"] = "fields.mif";
         only(f, "fields.mif",
              "Version 300\nDelimiter \",\"\nColumns 1\n id Char(5)\nData\n\nRegion 1\n 4\n0 0\n0 1\n1 1\n0 "
              "0\n");
         only(f, "fields.mid", "\"A\"\n");
       },
       "fields.mif", "whole file", "no reference system", "stated reference system", "export"},
      {"wrong reference system",
       [](FarmFiles& f) {
         f.fields["crs"] =
             Json::parse(R"({"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32610"}})");
         f.fields["features"].erase(2);
         f.fields["features"].erase(1);
       },
       "fields.geojson", "feature 1", "", "", "reference system"},
      {"no id column",
       [](FarmFiles& f) {
         for (Json& x : f.fields["features"]) {
           x["properties"]["check"] = x["properties"]["id"];
           x["properties"].erase("id");
         }
       },
       "fields.geojson", "column id", "no such column", "unique id", "fields.columns.id"},
      {"an id twice", [](FarmFiles& f) { field(f, "B")["id"] = "A"; }, "fields.geojson",
       "feature 2 (field A)", "\"A\" again (first in row 1)", "once", "another id"},
      {"no id in a row", [](FarmFiles& f) { field(f, "B")["id"] = nullptr; }, "fields.geojson", "feature 2",
       "no id", "a unique id", "fill"},
      {"mapped column not there",
       [](FarmFiles& f) {
         f.farm["fields"]["columns"]["name"] = "NAMES";
         field(f, "A")["NAME"] = "x";
       },
       "farm.json", "fields.columns.name", "\"NAMES\"", "a column of fields.geojson", "did you mean `NAME`?"},
      {"no grain and no straw", [](FarmFiles& f) { field(f, "C").erase("straw_load"); }, "fields.geojson",
       "(field C).yield", "nothing", "a ticket", "yield_kg_per_ha"},
      {"no harvest", [](FarmFiles& f) { field(f, "C").erase("harvest"); }, "fields.geojson",
       "(field C).harvest", "nothing", "a day of harvest", "column harvest"},
      {"a day that is not there", [](FarmFiles& f) { field(f, "C")["harvest"] = "2026-09-31"; },
       "fields.geojson", "field C), column harvest", "2026-09-31", "calendar", "year-month-day"},
      {"unknown soil", [](FarmFiles& f) { field(f, "C")["soil"] = "basin cley"; }, "fields.geojson",
       "column soil", "basin cley", "one of basin clay", "did you mean `basin clay`?"},
      {"unknown lay", [](FarmFiles& f) { field(f, "A")["lay"] = "windrows"; }, "fields.geojson", "column lay",
       "windrows", "windrow, spread, chopped", "did you mean `windrow`?"},
      {"entry for no field",
       [](FarmFiles& f) {
         f.farm["field_values"] = {{{"id", "D"}, {"cut", true}}};
       },
       "farm.json", "field_values[0].id", "\"D\"", "id of a field", "did you mean"},
      {"table without areas",
       [](FarmFiles& f) {
         f.farm["fields"]["file"] = "fields.csv";
         only(f, "fields.csv", "id,harvest,straw_load_t_per_ha\nA,2026-10-01,7\n");
       },
       "fields.csv", "line 2 (field A).area", "nothing", "an area", "area_ha"},
  });
}

TEST_CASE("faults of dates", "[regression]") {
  check_bad({
      {"harvest outside the season", [](FarmFiles& f) { field(f, "C")["harvest"] = "2026-08-20"; },
       "fields.geojson", "column harvest", "2026-08-20", "2026-09-01 to 2027-06-15", "correct"},
      {"cut after as_of", [](FarmFiles& f) { field(f, "B")["cut"] = "yes"; }, "fields.geojson",
       "(field B), column harvest", "2026-10-02", "as_of, 2026-09-25", "cut to no"},
      {"drained after harvest", [](FarmFiles& f) { field(f, "B")["summer_drain"] = "2026-10-04"; },
       "fields.geojson", "summer_drain", "summer_drain 2026-10-04, harvest 2026-10-02", "before", "correct"},
      {"drained before the season", [](FarmFiles& f) { field(f, "B")["summer_drain"] = "2026-08-30"; },
       "fields.geojson", "summer_drain", "2026-08-30", "2026-09-01", "season start earlier"},
      {"planting before harvest", [](FarmFiles& f) { field(f, "A")["planting_date"] = "2026-09-17"; },
       "fields.geojson", "column planting_date", "harvest 2026-09-18, planting_date 2026-09-17", "before",
       "correct"},
      {"window opens after planting", [](FarmFiles& f) { field(f, "B")["window_opens"] = "2027-05-20"; },
       "fields.geojson", "window_opens", "window_opens 2027-05-20, planting_date 2027-05-01", "not after",
       "correct"},
      {"cut-off before planting", [](FarmFiles& f) { field(f, "B")["cut_off"] = "2027-04-20"; },
       "fields.geojson", "cut_off", "cut_off 2027-04-20", "not after", "correct"},
      {"lease the wrong way round",
       [](FarmFiles& f) {
         f.farm["field_values"] = {
             {{"id", "B"}, {"lease", {{"from", "2027-01-31"}, {"until", "2026-11-20"}}}}};
       },
       "farm.json", "field_values[0].lease.until", "from 2027-01-31 until 2026-11-20", "from before until",
       "turn"},
      {"lease before the harvest",
       [](FarmFiles& f) {
         f.farm["field_values"] = {
             {{"id", "B"}, {"lease", {{"from", "2026-09-20"}, {"until", "2026-11-20"}}}}};
       },
       "farm.json", "field_values[0].lease.from", "2026-09-20", "after the harvest", "correct"},
      {"this season as history",
       [](FarmFiles& f) {
         f.farm["field_values"] = {{{"id", "B"}, {"history", {{{"season", 2026}}}}}};
       },
       "farm.json", "field_values[0].history[0].season", "2026", "before this one", "year"},
      {"a season of history twice",
       [](FarmFiles& f) {
         f.farm["field_values"] = {{{"id", "B"}, {"history", {{{"season", 2024}}, {{"season", 2024}}}}}};
       },
       "farm.json", "field_values[0].history[1].season", "2024 twice", "one line a season", "together"},
      {"season too long", [](FarmFiles& f) { f.farm["season"]["last"] = "2027-09-15"; }, "farm.json",
       "season.last", "2027-09-15", "29 to 364 days after", "correct"},
      {"planting outside the season",
       [](FarmFiles& f) {
         f.farm["season"]["planting_date"] = "2026-08-15";
         for (Json& x : f.fields["features"]) x["properties"]["next_use"] = "fallow";
       },
       "farm.json", "season.planting_date", "2026-08-15", "inside the season", "correct"},
      {"as_of outside the season", [](FarmFiles& f) { f.farm["as_of"] = "2027-07-01"; }, "farm.json", "as_of",
       "2027-07-01", "2026-09-01 to 2027-06-15", "correct"},
      {"days off the wrong way round",
       [](FarmFiles& f) {
         f.farm["operators"][0]["away"] = {{{"from", "2026-10-09"}, {"to", "2026-10-05"}}};
       },
       "farm.json", "operators[0].away[0].to", "2026-10-05", "2026-10-09", "turn"},
      {"late curve out of order",
       [](FarmFiles& f) {
         f.farm["season"]["late_curve"] = {{{"day", "2027-05-10"}, {"loss", "0 kg/ha"}},
                                           {{"day", "2027-05-01"}, {"loss", "10 kg/ha"}}};
       },
       "farm.json", "season.late_curve[1].day", "2027-05-01", "after 2027-05-10", "rising"},
      {"late curve that falls",
       [](FarmFiles& f) {
         f.farm["season"]["late_curve"] = {{{"day", "2027-05-01"}, {"loss", "50 kg/ha"}},
                                           {{"day", "2027-05-11"}, {"loss", "10 kg/ha"}}};
       },
       "farm.json", "season.late_curve[1].loss", "falls", "not below", "correct"},
  });
}

TEST_CASE("names that do not exist", "[regression]") {
  const auto entry = [](FarmFiles& f, Json values) {
    values["id"] = "B";
    f.farm["field_values"] = Json::array({values});
  };
  check_bad({
      {"kind of implement", [](FarmFiles& f) { f.farm["implements"][0]["kind"] = "disc"; }, "farm.json",
       "implements[0].kind", "\"disc\"", "rake", "did you mean `disk`?"},
      {"method not allowed",
       [&](FarmFiles& f) {
         entry(f, {{"not_allowed", {{{"method", "bael"}, {"why", "landlord"}}}}});
       },
       "farm.json", "field_values[0].not_allowed[0].method", "\"bael\"", "one of", "did you mean"},
      {"locked method",
       [&](FarmFiles& f) {
         entry(f, {{"locked", "zzzzzzzz"}});
       },
       "farm.json", "field_values[0].locked", "zzzzzzzz", "one of", "correct"},
      {"linked field",
       [&](FarmFiles& f) {
         entry(f, {{"links", {{"fills_from", {"Q"}}}}});
       },
       "farm.json", "field_values[0].links.fills_from[0]", "\"Q\"", "id of a field", ""},
      {"linked to itself",
       [&](FarmFiles& f) {
         entry(f, {{"links", {{"drains_to", {"B"}}}}});
       },
       "farm.json", "links.drains_to[0]", "itself", "another field", "take it out"},
      {"skill", [](FarmFiles& f) { f.farm["operators"][0]["skills"] = {"burnin"}; }, "farm.json",
       "operators[0].skills[0]", "burnin", "burning", "did you mean `burning`?"},
      {"texture", [](FarmFiles& f) { f.farm["soils"][0]["texture"] = "heavy clay"; }, "farm.json",
       "soils[0].texture", "heavy clay", "silty clay", ""},
      {"ticket of a field", [](FarmFiles& f) { field(f, "C")["ticket"] = "dryer 9"; }, "fields.geojson",
       "column ticket", "dryer 9", "`tickets`", "add the ticket"},
      {"field of a ticket",
       [](FarmFiles& f) {
         f.farm["tickets"] = {{{"name", "t"}, {"fields", {"Z"}}, {"grain", "10 t"}}};
       },
       "farm.json", "tickets[0].fields[0]", "\"Z\"", "id of a field", ""},
      {"yield and ticket",
       [](FarmFiles& f) {
         f.farm["tickets"] = {{{"name", "t"}, {"fields", {"B"}}, {"grain", "10 t"}}};
       },
       "fields.geojson", "column yield_kg_per_ha", "a yield and a ticket", "one of the two", "keep"},
      {"two tractors of one id", [](FarmFiles& f) { f.farm["tractors"][1]["id"] = "T2"; }, "farm.json",
       "tractors[1].id", "twice", "once", "another id"},
      {"soil twice",
       [](FarmFiles& f) {
         f.farm["soils"].push_back(f.farm["soils"][0]);
         for (Json& x : f.fields["features"]) x["properties"]["soil"] = "basin clay";
       },
       "farm.json", "soils[1].name", "twice", "once", "rename"},
      {"own methods file", [](FarmFiles& f) { f.farm["methods"] = "methods.json"; }, "methods.json",
       "whole file", "no such file", "", ""},
      {"burn rules file", [](FarmFiles& f) { f.farm["burn_rules"] = "rules.json"; }, "rules.json",
       "whole file", "no such file", "", ""},
      {"kind of place",
       [](FarmFiles& f) {
         f.farm["places"] = {{"file", "places.geojson"}};
         Json p = drawn_fields({"H"});
         p["features"][0]["properties"]["kind"] = "hoem";
         only(f, "places.geojson", p.dump());
       },
       "places.geojson", "feature 1, column kind", "hoem", "home", "did you mean `home`?"},
      {"levee of no field",
       [](FarmFiles& f) {
         f.farm["levees"] = {{"file", "levees.geojson"}};
         Json p = drawn_fields({"H"});
         p["features"][0]["properties"]["field"] = "Q";
         only(f, "levees.geojson", p.dump());
       },
       "levees.geojson", "feature 1, column field", "\"Q\"", "id of a field", "correct"},
  });
}

TEST_CASE("faults in several files are all listed at once, in order", "[regression]") {
  FarmFiles files = small_farm();
  files.farm["units"] = "metric";
  files.farm["prices"]["diesel"] = 3.9;
  field(files, "A")["yield"] = "-5 lb/acre";
  field(files, "C")["harvest"] = "soon";
  replace_in(files.weather, "2020-09-03,5.0", "2020-09-03,warm");
  const Issues issues = read_farm(files).issues();
  INFO(all_text(issues));
  REQUIRE(issues.size() == 5);
  CHECK(issues[0].place == "prices.diesel");
  CHECK(issues[1].place == "units");
  CHECK(issues[2].file == "fields.geojson");
  CHECK(issues[3].file == "fields.geojson");
  CHECK(issues[4].file == "weather.csv");
}

TEST_CASE("faults do not depend on the order of rows", "[regression]") {
  FarmFiles a = small_farm();
  field(a, "A")["yield"] = "9200";
  field(a, "B")["soil"] = "none";
  FarmFiles b = a;
  std::swap(b.fields["features"][0], b.fields["features"][2]);
  const Issues x = read_farm(a).issues(), y = read_farm(b).issues();
  REQUIRE(x.size() == 2);
  REQUIRE(y.size() == 2);
  std::set<std::string> found_x{x[0].found, x[1].found}, found_y{y[0].found, y[1].found};
  CHECK(found_x == found_y);
}
