// Values of farm.json put otherwise before it is read.

#include "setting.hpp"

#include "catch2/catch.hpp"

using namespace aftercut;
using farm::Json;
using farm::Setting;

namespace {

Json document() {
  return Json::parse(R"({"prices": {"straw": "28 USD/t"}, "target": {"wanted_chance": 0.7},
    "implements": [{"id": "disk 1"}, {"id": "baler", "hire": {"per_mass": "27 USD/t", "windows": [{"from": "2026-09-14"}]}}]})");
}

Json made(const std::vector<Setting>& settings) {
  const auto result = farm::with_settings_made(document(), settings);
  REQUIRE(result.ok());
  return result.value();
}

}  // namespace

TEST_CASE("a setting changes one value, by key, id, place or pointer", "[identity]") {
  CHECK(made({{"prices.straw", "40 USD/t"}})["prices"]["straw"] == "40 USD/t");
  CHECK(made({{"/prices/straw", "40 USD/t"}})["prices"]["straw"] == "40 USD/t");
  CHECK(made({{"target.wanted_chance", "0.9"}})["target"]["wanted_chance"] == 0.9);
  CHECK(made({{"implements.baler.hire.per_mass", "30 USD/t"}})["implements"][1]["hire"]["per_mass"] ==
        "30 USD/t");
  CHECK(made({{"implements.0.width_m", "5"}})["implements"][0]["width_m"] == 5);
  CHECK(made({{"implements.baler.hire.windows.0.from",
               "2026-09-20"}})["implements"][1]["hire"]["windows"][0]["from"] == "2026-09-20");
  CHECK(made({{"work_day.move", "30 min"}})["work_day"]["move"] == "30 min");  // made where it was not
  CHECK_FALSE(made({{"prices.straw", "null"}})["prices"].contains("straw"));
  CHECK(made({}) == document());
}

TEST_CASE("a path that leads nowhere is an issue with what there is", "[identity]") {
  const auto unknown = farm::with_settings_made(
      document(), {{"implements.plough.width_m", "3"}, {"prices.straw.high", "3"}, {"prices..straw", "3"}});
  const Issues issues = unknown.issues();
  REQUIRE(issues.size() == 3);
  CHECK(issues[0].place == "--set");
  CHECK(issues[0].expected.find("disk 1") != std::string::npos);
  CHECK(issues[0].expected.find("baler") != std::string::npos);
}

TEST_CASE("settings are read from path=value, several with ; between them", "[identity]") {
  const auto two = farm::read_settings("prices.straw = 40 USD/t ; prices.diesel=1.2 USD/L");
  REQUIRE(two.ok());
  CHECK(two.value() == std::vector<Setting>{{"prices.straw", "40 USD/t"}, {"prices.diesel", "1.2 USD/L"}});
  for (const char* bad : {"", "prices.straw", "=3", "prices.straw=", "prices.straw=4;"})
    CHECK_FALSE(farm::read_settings(bad).ok());
}

TEST_CASE("a value that is nested too deep, or a number beyond a double, is taken as a text",
          "[regression]") {
  const std::string deep = std::string(100000, '[') + std::string(100000, ']');
  CHECK(made({{"prices.straw", deep}})["prices"]["straw"] == deep);
  CHECK(made({{"prices.straw", "1e999"}})["prices"]["straw"] == "1e999");
}

TEST_CASE("a path of more keys than a file can be deep is an issue", "[regression]") {
  std::string path = "a";
  for (int k = 0; k < 100000; ++k) path += ".a";
  const auto result = farm::with_settings_made(document(), {{path, "1"}});
  REQUIRE_FALSE(result.ok());
  CHECK(result.issues().at(0).expected.find("at most 64 keys") != std::string::npos);
}
