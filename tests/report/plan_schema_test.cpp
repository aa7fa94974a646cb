#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "departures.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

using nlohmann::json;

std::vector<std::string> departures(const json& plan) {
  return test::departures_from("plan.schema.json", plan);
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
  json price = good, without = good;
  price["fields"][0]["chosen"]["next_best"]["break_even"][0]["price"] = "seed";
  without["fields"][0]["chosen"].erase("next_best");
  json no_jobs = good, job = good, until = good;
  no_jobs["fields"][0].erase("jobs");
  job["fields"][0]["jobs"][0]["first"]["p50"] = "soon";
  until["farm"]["forecast_until"] = 5;
  CHECK_FALSE(departures(no_jobs).empty());
  CHECK_FALSE(departures(job).empty());
  CHECK_FALSE(departures(until).empty());
  json ready = good, wet = good;
  ready["fields"][0]["ready_days"][0]["ready"] = "soon";
  wet["fields"][0]["winter"]["pores_full"]["p50"][3] = 1.4;
  CHECK_FALSE(departures(ready).empty());
  CHECK_FALSE(departures(wet).empty());
  CHECK_FALSE(departures(price).empty());
  CHECK_FALSE(departures(without).empty());
  CHECK_FALSE(departures(missing).empty());
  CHECK_FALSE(departures(unknown).empty());
  CHECK_FALSE(departures(chance).empty());
  CHECK_FALSE(departures(day).empty());
}

}  // namespace
}  // namespace aftercut
