#include <fstream>
#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

using nlohmann::json;

// Every place where `plan` departs from docs/schema/plan.schema.json.
std::vector<std::string> departures(const json& plan) {
  std::ifstream in{std::string{AFTERCUT_SOURCE_DIR} + "/docs/schema/plan.schema.json"};
  const json schema_text = json::parse(in);
  valijson::Schema schema;
  valijson::SchemaParser{}.populateSchema(valijson::adapters::NlohmannJsonAdapter{schema_text}, schema);
  valijson::ValidationResults results;
  valijson::Validator{}.validate(schema, valijson::adapters::NlohmannJsonAdapter{plan}, &results);
  std::vector<std::string> out;
  valijson::ValidationResults::Error error;
  while (results.popError(error)) {
    std::string place;
    for (const auto& part : error.context) place += part;
    out.push_back(place + ": " + error.description);
  }
  return out;
}

json sample_plan(farm::UnitSystem units) {
  const auto s = test::sample(units);
  return json::parse(report::plan_json(s.problem, s.planned, s.audit));
}

TEST_CASE("plan.json keeps to its schema", "[golden]") {
  CHECK(departures(sample_plan(farm::UnitSystem::us)) == std::vector<std::string>{});
  CHECK(departures(sample_plan(farm::UnitSystem::si)) == std::vector<std::string>{});
}

TEST_CASE("plan.json with a yield map keeps to its schema", "[golden]") {
  auto s = test::sample();
  s.problem.farm.yield_map.patterns.resize(s.problem.farm.fields.size());
  s.problem.farm.yield_map.patterns[0] = farm::YieldPattern{.p10_kg_per_ha = 5000.0, .p90_kg_per_ha = 8000.0};
  CHECK(departures(json::parse(report::plan_json(s.problem, s.planned, s.audit))) ==
        std::vector<std::string>{});
}

TEST_CASE("plan.json with a bound, violations and no burning rules keeps to its schema", "[golden]") {
  auto s = test::sample();
  s.planned.plan.bound_cents = 9876543;
  s.problem.farm.burning.reset();
  s.audit.count = 1;
  s.audit.violations = {{"double-booked machine", "2005-10-03 disk", "two fields", "one field"}};
  CHECK(departures(json::parse(report::plan_json(s.problem, s.planned, s.audit))) ==
        std::vector<std::string>{});
}

TEST_CASE("The schema notices what is wrong", "[identity]") {
  const json good = sample_plan(farm::UnitSystem::us);
  json missing = good, unknown = good, chance = good, day = good;
  missing["fields"][0].erase("straw");
  unknown["fields"][0]["colour"] = "red";
  chance["fields"][0]["methods"][3]["chance_ready"] = 1.2;
  day["schedule"][0]["start"] = "2026-10-03";
  CHECK_FALSE(departures(missing).empty());
  CHECK_FALSE(departures(unknown).empty());
  CHECK_FALSE(departures(chance).empty());
  CHECK_FALSE(departures(day).empty());
}

}  // namespace
}  // namespace aftercut
