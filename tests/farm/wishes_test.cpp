// How sure the user wants fields, and what late days cost: as entered, by default, and contradictions.

#include "aftercut/farm/wishes.hpp"

#include "bad_rows.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

farm::Problem with_target(const char* target) {
  FarmFiles files = small_farm();
  files.farm["target"] = Json::parse(target);
  return sound(files);
}

}  // namespace

TEST_CASE("a chance that is asked for binds, one that nobody asked for is only told", "[identity]") {
  CHECK(with_target("{}").farm.target.risk == farm::Risk::price);
  CHECK(with_target(R"({"wanted_chance": 0.8})").farm.target.risk == farm::Risk::both);
  CHECK(with_target(R"({"wanted_chance": 0.8, "risk": "price"})").farm.target.risk == farm::Risk::price);
  CHECK(with_target(R"({"risk": "chance"})").farm.target.risk == farm::Risk::chance);
  FarmFiles files = small_farm();
  files.farm["target"] = Json::object();
  field(files, "B")["wanted_chance"] = 0.95;
  const farm::Problem p = sound(files);
  CHECK(p.farm.target.risk == farm::Risk::both);
  CHECK(farm::wanted_chance(p.farm, field_of(p, "B")) == 0.95);
  CHECK(farm::wanted_chance(p.farm, field_of(p, "A")) == 0.8);
}

TEST_CASE("a late day's price is by area, and a field's own late curve goes before it", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["season"].erase("late_curve");
  files.farm["target"] = {{"late_price", "4 USD/acre"}};
  files.farm["field_values"] = Json::parse(
      R"([{"id": "B", "late_curve": [{"day": "2027-05-05", "loss": "0 kg/ha"}, {"day": "2027-05-25", "loss": "400 kg/ha"}]}])");
  const farm::Problem p = sound(files);
  REQUIRE(farm::late_price(p.farm, field_of(p, "A")));
  CHECK(farm::late_price(p.farm, field_of(p, "A"))->value() == Approx(4.0 / 0.40468564224));
  CHECK_FALSE(farm::late_price(p.farm, field_of(p, "B")));
}

TEST_CASE("years that a chance asks for", "[identity]") {
  CHECK(farm::years_wanted(0.8, 15) == 12);
  CHECK(farm::years_wanted(0.8, 14) == 12);
  CHECK(farm::years_wanted(1.0, 14) == 14);
  CHECK(farm::years_wanted(0.0, 14) == 0);
  CHECK(farm::years_wanted(0.1, 10) == 1);
}

TEST_CASE("wishes that contradict each other", "[regression]") {
  const auto target = [](const char* text) {
    return [text](FarmFiles& f) {
      f.farm["season"].erase("late_curve");
      f.farm["target"] = Json::parse(text);
    };
  };
  check_bad({
      {"an unknown word", target(R"({"risk": "chances"})"), "farm.json", "target.risk", "chances", "chance",
       "did you mean"},
      {"a price that is not counted", target(R"({"risk": "chance", "late_price": "4 USD/acre"})"),
       "farm.json", "target.late_price", "risk", "no price", "take late_price out"},
      {"a price without its area", target(R"({"late_price": "4 USD"})"), "farm.json", "target.late_price",
       "4 USD", "", ""},
      {"a price and a curve",
       [](FarmFiles& f) {
         f.farm["target"] = {{"late_price", "4 USD/acre"}};
         f.farm["season"]["late_curve"] = Json::parse(R"([{"day": "2027-05-01", "loss": "0 kg/ha"}])");
       },
       "farm.json", "target.late_price", "season.late_curve", "one of the two", "take out"},
      {"a late day dearer than no crop", target(R"({"late_price": "900 USD/acre"})"), "farm.json",
       "target.late_price", "up to the cut-off", "unplanted", "lower late_price"},
      {"a chance of a field above one", [](FarmFiles& f) { field(f, "A")["wanted_chance"] = 1.2; },
       "fields.geojson", "feature 1 (field A), column wanted_chance", "1.2", "0 to 1", "correct"},
  });
}
