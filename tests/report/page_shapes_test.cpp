// Shapes that the page draws beside the fields, and a field's winter in plan.json.

#include "aftercut/geo/shape.hpp"
#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "layers.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

geo::Path ring_of(const report::json& polygon) {
  geo::Path ring;
  for (const auto& p : polygon.at("coordinates").at(0).at(0))
    ring.push_back({p.at(0).get<double>(), p.at(1).get<double>()});
  return ring;
}

TEST_CASE("a setback is the ground nearer to a place than its row asks for, and quotes the row",
          "[identity]") {
  const auto s = test::sample();
  const auto setbacks = report::page_shapes(s.problem.farm).at("setbacks").at("features");
  REQUIRE(setbacks.size() == 1);  // no row asks for a distance from the canal
  const auto& told = setbacks[0].at("properties");
  CHECK(told.at("place") == "Home place");
  CHECK(told.at("metres") == 150.0);
  CHECK(told.at("says") == "row \">= 150 m\"");
  CHECK(told.at("weight") == "permit term");
  CHECK(told.at("source") == "source \"invented\", as of 2026-01-01");
  for (const geo::Point& p : ring_of(setbacks[0].at("geometry")))
    CHECK(geo::distance(s.problem.farm.places[0].shape, {{}, {}, {p}}).value() ==
          Approx(150.0).epsilon(0.003));
}

TEST_CASE("without a row or without rules there is no setback", "[identity]") {
  auto s = test::sample();
  s.problem.farm.burning->rules.pop_back();
  CHECK(report::page_shapes(s.problem.farm).at("setbacks").at("features").empty());
  s.problem.farm.burning.reset();
  CHECK(report::page_shapes(s.problem.farm).at("setbacks").at("features").empty());
}

TEST_CASE("stack places and ways of water are told as the farm has them", "[identity]") {
  const auto shapes = report::page_shapes(test::sample().problem.farm);
  REQUIRE(shapes.at("stacks").at("features").size() == 1);
  CHECK(shapes["stacks"]["features"][0]["properties"] ==
        report::json{{"id", "Levee end"}, {"cover", "uncovered"}, {"most_bales", 400}});
  CHECK(shapes.at("links") == report::json::array({{{"field", "5"}, {"kind", "fills_from"}, {"other", "4"}},
                                                   {{"field", "5"}, {"kind", "drains_to"}, {"other", "6"}}}));
}

TEST_CASE("a field's winter has a figure a week; none to tell is null", "[identity]") {
  const auto s = test::sample();
  const auto fields = report::json::parse(report::plan_json(s.problem, s.planned, s.audit)).at("fields");
  const auto& weeks = s.planned.plan.fields[0].winter;
  const auto& winter = fields[0].at("winter");
  CHECK(winter.at("first") == "2026-09-11");
  CHECK(winter.at("every_days") == 7);
  for (const char* key : {"p10", "p50", "p90"}) {
    CHECK(winter.at("straw_kg_per_ha").at(key).size() == weeks.size());
    CHECK(winter.at("pores_full").at(key).size() == weeks.size());
  }
  CHECK(winter["straw_kg_per_ha"]["p50"][3].get<double>() ==
        Approx(weeks[3].straw_kg_per_ha.p50).margin(0.5));
  CHECK(winter.at("under_water").size() == weeks.size());
  CHECK(fields[8].at("winter").is_null());
  CHECK(fields[6].at("ready_days").empty());  // a fallow field
  CHECK(fields[0].at("ready_days").size() == s.planned.plan.shown_years.size());
  CHECK(fields[7].at("ready_days")[0].at("ready") == "not by 2027-05-30");
}

}  // namespace
}  // namespace aftercut
