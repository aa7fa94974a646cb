#include "aftercut/farm/starter.hpp"

#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using farm::UnitSystem;
using test::Kind;

TEST_CASE("A soil's name tells its texture where it can", "[derived]") {
  CHECK(farm::texture_in_name("Silty clay, deep") == "silty clay");
  CHECK(farm::texture_in_name("silty_clay_loam") == "silty clay loam");
  CHECK(farm::texture_in_name("Basin CLAY") == "clay");
  CHECK(farm::texture_in_name("Clay loam") == "clay loam");
  CHECK(farm::texture_in_name("river bottom") == "clay");
}

TEST_CASE("A larger farm has no fewer machines and people", "[identity]") {
  std::size_t before = 0;
  for (const double ha : {20.0, 200.0, 500.0, 900.0, 3000.0}) {
    farm::Starter s;
    s.area = Hectare{ha};
    s.season_first = make_date(2026, 8, 15);
    const auto json = nlohmann::json::parse(farm::starter_json(s));
    const std::size_t count = json["tractors"].size() + json["operators"].size() + json["implements"].size();
    CHECK(json["tractors"].size() == json["operators"].size());
    CHECK(count >= before);
    std::set<std::string> ids;
    for (const char* list : {"tractors", "implements", "operators"})
      for (const auto& one : json[list]) CHECK(ids.insert(one["id"].get<std::string>()).second);
    before = count;
  }
}

TEST_CASE("US and SI starters state the same machines and prices", "[identity]") {
  farm::Starter s;
  s.area = Hectare{300.0};
  s.season_first = make_date(2026, 8, 15);
  const auto si = nlohmann::json::parse(farm::starter_json(s));
  s.units = UnitSystem::us;
  const auto us = nlohmann::json::parse(farm::starter_json(s));
  const auto value = [](const nlohmann::json& j) { return std::stod(j.get<std::string>()); };
  test::check({{"diesel", "3.785411784 L/gal", Kind::identity, value(us["prices"]["diesel"]) / 3.785411784,
                value(si["prices"]["diesel"]), 0.01},
               {"grain", "0.45359237 kg/lb", Kind::identity, value(us["prices"]["grain"]) / 0.45359237,
                value(si["prices"]["grain"]), 0.001},
               {"unplanted", "0.40468564 ha/acre", Kind::identity,
                value(us["prices"]["unplanted"]) / 0.40468564224, value(si["prices"]["unplanted"]), 5.0},
               {"rake width", "0.3048 m/ft", Kind::identity, value(us["implements"][0]["width"]) * 0.3048,
                value(si["implements"][0]["width"]), 0.05},
               {"flow", "0.0283168 m3/ft3", Kind::identity, value(us["water"]["most_flow"]) * 0.028316846592,
                value(si["water"]["most_flow"]), 0.002}});
}
