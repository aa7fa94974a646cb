// Terms of hired outfits, bales and stack places.

#include <algorithm>

#include "aftercut/farm/power.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

const char* stack_rows = R"({"type": "FeatureCollection", "features": [
 {"type": "Feature", "properties": {"id": "S10", "bales": 300},
  "geometry": {"type": "Point", "coordinates": [-121.895, 39.39]}},
 {"type": "Feature", "properties": {"id": "S2", "cover": "half_open"},
  "geometry": {"type": "Polygon", "coordinates": [[[-121.90, 39.385], [-121.899, 39.385], [-121.899, 39.386],
   [-121.90, 39.386], [-121.90, 39.385]]]}}]})";

const machinery::Implement& implement_of(const farm::Problem& p, const std::string& id) {
  const auto at = std::find_if(p.farm.implements.begin(), p.farm.implements.end(),
                               [&](const auto& i) { return i.id.value == id; });
  REQUIRE(at != p.farm.implements.end());
  return *at;
}

bool told(const Issues& issues, const std::string& place) {
  return std::any_of(issues.begin(), issues.end(),
                     [&](const Issue& i) { return i.place.find(place) != std::string::npos; });
}

}  // namespace

TEST_CASE("every term of a hired baler is read", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["implements"][1]["hire"] = Json::parse(R"({
    "windows": [{"from": "2026-10-01", "to": "2026-10-31", "why": "after the hay"}], "per_bale": "9 USD",
    "least_area": "100 acre", "below_least": "charges_least", "rakes": "outfit", "order": ["C", "A"],
    "bales_off_by": "2026-11-10", "comes": [{"day": "2026-10-05", "chance": 0.5}, {"day": "2026-10-20", "chance": 0.9}]})");
  const farm::Problem p = sound(files);
  const machinery::Hire& h = *implement_of(p, "B1").hire;
  CHECK(h.per_bale == Money{9.0});
  CHECK(h.least_area.value() == Approx(40.468564224));
  CHECK(h.below_least == machinery::BelowLeast::charges_least);
  CHECK(h.rakes);
  CHECK(h.order == std::vector<FieldId>{FieldId{"C"}, FieldId{"A"}});
  CHECK(h.bales_off_by == make_date(2026, 11, 10));
  CHECK(h.comes ==
        std::vector<machinery::ComesBy>{{make_date(2026, 10, 5), 0.5}, {make_date(2026, 10, 20), 0.9}});
  CHECK(h.windows.front().why == "after the hay");
  const machinery::Implement& rake = implement_of(p, "B1+rake");
  CHECK(rake.kind == "rake");
  CHECK(rake.hire->with == MachineId{"B1"});
  CHECK(rake.hire->brings_operator);
  CHECK(rake.width == implement_of(p, "B1").width);
  CHECK(rake.hire->windows == h.windows);
}

TEST_CASE("terms that make no sense are told, all at once", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["implements"][1]["hire"] = Json::parse(R"({"order": ["C", "Z", "C"],
    "comes": [{"day": "2026-10-20", "chance": 0.9}, {"day": "2026-10-05", "chance": 0.5}]})");
  files.farm["implements"][0]["hire"] = Json::parse(R"({"per_bale": "9 USD", "bales_off_by": "2026-11-10"})");
  files.farm["bales"] = Json::parse(R"({"mass": "1900 kg"})");
  const auto read = read_farm(files);
  REQUIRE_FALSE(read.ok());
  for (const char* place : {"order[1]", "order[2]", "comes[1].day", "comes[1].chance", "per_bale",
                            "bales_off_by", "bales.mass"}) {
    CAPTURE(place);
    CHECK(told(read.issues(), place));
  }
}

TEST_CASE("stack places and their rules", "[identity]") {
  FarmFiles files = small_farm();
  only(files, "stacks.geojson", stack_rows);
  files.farm["stacks"] = Json::parse(R"({"file": "stacks.geojson", "from_home": "150 ft", "from_stack_m": 12,
    "most_block": "600 m3", "detour": 1.5, "loss_uncovered_percent": 45})");
  files.farm["bales"] =
      Json::parse(R"({"length": "8 ft", "mass": "900 lb", "per_load": 34, "storage_loss": "10 %"})");
  const farm::Problem p = sound(files);
  const farm::Stacking& s = p.farm.stacking;
  REQUIRE(s.places.size() == 2);
  CHECK(s.places[0].id == "S2");  // before S10
  CHECK(s.places[0].cover == farm::StackCover::half_open);
  CHECK_FALSE(s.places[0].most_bales);
  CHECK(s.places[1].most_bales == 300);
  CHECK(s.rules.from_home.value() == Approx(45.72));
  CHECK(s.rules.from_stack.value() == 12.0);
  CHECK(s.rules.from_road.value() == 30.5);
  CHECK(s.rules.most_block_m3 == 600.0);
  CHECK(s.rules.loss_uncovered == Approx(0.45));
  CHECK(p.farm.bales.mass.value() == Approx(408.233));
  CHECK(p.farm.bales.per_load == 34);
  CHECK(p.farm.bales.storage_loss == Approx(0.1));
  CHECK(std::any_of(p.farm.inputs.begin(), p.farm.inputs.end(),
                    [](const auto& i) { return i.path == "stacks.geojson"; }));
}

TEST_CASE("stack places with faults are told", "[identity]") {
  FarmFiles files = small_farm();
  std::string rows = stack_rows;
  rows.replace(rows.find("\"bales\": 300"), 12, "\"bales\": 2.5");
  rows.replace(rows.find("half_open"), 9, "roof");
  rows.replace(rows.find("S2"), 2, "S10");
  only(files, "stacks.geojson", rows);
  files.farm["stacks"] = {{"file", "stacks.geojson"}};
  const auto read = read_farm(files);
  REQUIRE_FALSE(read.ok());
  for (const char* place : {"column bales", "column cover", "feature 2"}) {
    CAPTURE(place);
    CHECK(told(read.issues(), place));
  }
}

TEST_CASE("an implement that no tractor pulls is told with its figures", "[identity]") {
  FarmFiles files = small_farm();
  CHECK(farm::power_notes(sound(files).farm).empty());
  files.farm["tractors"][0]["pto_power"] = "60 hp";
  files.farm["tractors"][1]["pto_power_kw"] = 40;
  const farm::Problem p = sound(files);
  const auto notes = farm::power_notes(p.farm);
  REQUIRE(notes.size() == 1);
  CAPTURE(notes.front());
  CHECK(notes.front().starts_with("No tractor pulls D1 21.0 ft at 5.0 mph asks "));
  CHECK(notes.front().find(" hp at the PTO on tilled fine soil, band ") != std::string::npos);
  CHECK(notes.front().ends_with("strongest tractor 60 hp"));
  // The band is half and one and a half times the power: D497's range for a disk is 50 %.
  const farm::PowerAsked asked = farm::power_asked(p.farm, {1, 0, 0}, machinery::Drive::front_assist);
  CHECK(asked.low <= asked.asked);
  CHECK(asked.asked <= asked.high);
}
