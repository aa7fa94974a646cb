// Scenarios: changes read, written, and put into farm.json's value; the file itself stays as it is.

#include "aftercut/farm/change.hpp"

#include "aftercut/farm/wishes.hpp"
#include "catch2/catch.hpp"
#include "change_settings.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;
using farm::Scenario;

namespace {

Date day(int y, int m, int d) { return make_date(y, m, d); }

Scenario all_kinds() {
  return {"all of them",
          {farm::FixMethod{{"A"}, {"disk"}}, farm::BarMethod{{"B"}, {"burn"}, "a school is near"},
           farm::MoveHarvest{{"B"}, day(2026, 9, 20)}, farm::MovePlanting{std::nullopt, day(2027, 5, 1)},
           farm::MovePlanting{FieldId{"C"}, day(2027, 5, 9)}, farm::SetPrice{"straw", "40 USD/t"},
           farm::OutOfWork{"T1", day(2026, 10, 12), day(2026, 10, 18)}, farm::WantChance{std::nullopt, 0.9},
           farm::WantChance{FieldId{"C"}, 0.95}, farm::Setting{"prices.diesel", "1.2 USD/L"}}};
}

const farm::Named names{{"A", "B", "C"}, {"disk", "burn"}, {{"B", make_date(2027, 5, 12)}}};

farm::Json document() {
  return farm::Json::parse(R"({"season": {"planting_date": "2027-05-05"}, "prices": {"straw": "28 USD/t"},
    "target": {"wanted_chance": 0.7}, "field_defaults": {"not_allowed": [{"method": "flood", "why": "no canal"}]},
    "field_values": [{"id": "A", "name": "home"}],
    "tractors": [{"id": "T1"}], "implements": [{"id": "disk 1"}], "operators": [{"id": "Ana"}]})");
}

farm::Json made(const std::vector<farm::Change>& changes) {
  const auto result = farm::with_changes_made(document(), {"", changes}, names, "scenarios/x.json");
  for (const auto& i : result.issues()) UNSCOPED_INFO(i.place + " " + i.found + " " + i.expected);
  REQUIRE(result.ok());
  return result.value();
}

Issues refused(const std::vector<farm::Change>& changes) {
  return farm::with_changes_made(document(), {"", changes}, names, "scenarios/x.json").issues();
}

}  // namespace

TEST_CASE("a scenario that is written is read back as it was", "[identity]") {
  const auto back = farm::read_scenario(farm::scenario_text(all_kinds()), "x.json");
  REQUIRE(back.ok());
  CHECK(back.value() == all_kinds());
}

TEST_CASE("each change goes to its place in farm.json's value", "[identity]") {
  const auto all = made(all_kinds().changes);
  CHECK(all["field_values"][0] == farm::Json{{"id", "A"}, {"name", "home"}, {"locked", "disk"}});
  CHECK(all["field_values"][1]["harvest"] == "2026-09-20");
  CHECK(all["field_values"][1]["planting_date"] == "2027-05-08");  // four days earlier, like the season's
  CHECK(all["field_values"][2]["planting_date"] == "2027-05-09");
  CHECK(all["field_values"][2]["wanted_chance"] == 0.95);
  CHECK(all["season"]["planting_date"] == "2027-05-01");
  CHECK(all["target"]["wanted_chance"] == 0.9);
  CHECK(all["prices"]["straw"] == "40 USD/t");
  CHECK(all["prices"]["diesel"] == "1.2 USD/L");
  CHECK(all["tractors"][0]["away"][0]["from"] == "2026-10-12");
  CHECK(made({farm::OutOfWork{"Ana", day(2026, 10, 1), day(2026, 10, 2)}})["operators"][0]["away"][0] ==
        farm::Json{{"from", "2026-10-01"}, {"to", "2026-10-02"}});
  CHECK(made({}) == document());
}

TEST_CASE("a method ruled out on a field keeps what the defaults rule out", "[identity]") {
  const auto list = made({farm::BarMethod{{"B"}, {"burn"}, ""}})["field_values"][1]["not_allowed"];
  REQUIRE(list.size() == 2);
  CHECK(list[0]["method"] == "flood");
  CHECK(list[1]["method"] == "burn");
  CHECK_FALSE(list[1]["why"].get<std::string>().empty());
}

TEST_CASE("names that the farm does not have are told at once, with the nearest", "[identity]") {
  const Issues issues = refused({farm::FixMethod{{"D"}, {"dsk"}}, farm::OutOfWork{"disk1", {}, {}},
                                 farm::SetPrice{"canal_water", "1 USD/m3"}, farm::MoveHarvest{{"A"}, {}}});
  REQUIRE(issues.size() == 4);
  CHECK(issues[0].place == "changes[0]");
  CHECK(issues[0].file == "scenarios/x.json");
  CHECK(issues[1].fix.find("disk") != std::string::npos);
  CHECK(issues[2].fix.find("disk 1") != std::string::npos);
  CHECK(issues[3].place == "changes[2]");
}

TEST_CASE("a faulty scenario: every fault with its place", "[identity]") {
  const auto read = farm::read_scenario(R"({"title": "x", "changes": [
    {"change": "fix_methd", "field": "A"}, {"change": "fix_method", "field": "A"}, {"change": "move_harvest", "field": "A", "day": "2026-02-30"},
    {"change": "want_chance", "chance": 1.5}, {"change": "out_of_work", "who": "T1", "from": "2026-10-12", "to": "2026-10-01"},
    {"change": "set_price", "what": "hay", "price": "3 USD/t"}, {"change": "set", "path": "a", "value": "b", "c": 1}, {}, 7]})",
                                        "s.json");
  const Issues issues = read.issues();
  std::vector<std::string> places;
  for (const auto& i : issues) places.push_back(i.place);
  for (const char* place : {"title", "changes[0].change", "changes[1].method", "changes[2].day",
                            "changes[3].chance", "changes[4].to", "changes[5].what", "changes[6].c"})
    CHECK(std::find(places.begin(), places.end(), place) != places.end());
  CHECK_FALSE(farm::read_scenario("{\"changes\": ", "s.json").ok());
  CHECK_FALSE(farm::read_scenario("[]", "s.json").ok());
  CHECK_FALSE(farm::read_scenario("{}", "s.json").ok());
  CHECK_FALSE(farm::read_scenario("{\"changes\": 3}", "s.json").ok());
  CHECK_FALSE(farm::read_scenario("{\"changes\": [3]}", "s.json").ok());
}

TEST_CASE("a name that is no file name is refused", "[identity]") {
  for (const char* bad : {"", "..", "a/b", "../x", "a b", "x.json", "\xc3\xa4"})
    CHECK_FALSE(farm::scenario_file("farm", bad).ok());
  CHECK_FALSE(farm::scenario_file("farm", std::string(61, 'a')).ok());
  CHECK(farm::scenario_file("farm", "early-cut_2").value() == "farm/scenarios/early-cut_2.json");
}

TEST_CASE("a farm read with a scenario is the changed one; its faults name the scenario", "[identity]") {
  const FarmFiles files = small_farm();
  const auto plain = sound(files);
  const std::string method = plain.farm.book.recipes.front().id.value;
  farm::ReadOptions options;
  options.scenario = Scenario{"", {farm::FixMethod{{"A"}, {method}}, farm::WantChance{FieldId{"B"}, 0.95}}};
  options.scenario_file = "scenarios/try.json";
  const auto changed = sound(files, options);
  REQUIRE(field_of(changed, "A").locked);
  CHECK(field_of(changed, "A").locked->value == method);
  CHECK_FALSE(field_of(plain, "A").locked);
  CHECK(farm::wanted_chance(changed.farm, field_of(changed, "B")) == Approx(0.95));
  options.scenario = Scenario{"", {farm::MoveHarvest{{"nowhere"}, day(2026, 9, 20)}}};
  const Issues issues = read_farm(files, options).issues();
  REQUIRE(issues.size() == 1);
  CHECK(issues[0].file == "scenarios/try.json");
}

TEST_CASE("changes of a farm.json that is faulty at their place leave the fault to be told", "[regression]") {
  for (const char* key : {"season", "prices", "target", "water", "field_values", "field_defaults"}) {
    INFO(key);
    farm::Json faulty = document();
    faulty[key] = 3;
    std::vector<farm::Change> changes = all_kinds().changes;
    changes.push_back(farm::SetPrice{"canal_water", "1 USD/m3"});
    if (std::string{key} != "water") faulty["water"] = farm::Json::object();
    changes.erase(changes.begin() + 9);  // a setting says itself where its path ends
    const auto result = farm::with_changes_made(faulty, {"", changes}, names, "scenarios/x.json");
    REQUIRE(result.ok());
    CHECK(result.value()[key] == 3);
  }
  farm::Json faulty = document();
  faulty["field_defaults"]["not_allowed"] = "burn";
  faulty["tractors"][0]["away"] = "always";
  const auto result = farm::with_changes_made(faulty, all_kinds(), names, "scenarios/x.json");
  REQUIRE(result.ok());
  CHECK(result.value()["tractors"][0]["away"] == "always");
}

TEST_CASE("an issue at a key that is an empty text has a place", "[regression]") {
  const auto read = farm::read_scenario(R"({"": 1, "changes": []})", "x.json");
  REQUIRE_FALSE(read.ok());
  CHECK(read.issues().at(0).place == "whole file");
}
