// Straw of every field in words, with and without a yield map.

#include "aftercut/report/straw.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

/// Whether the text says so, wherever its lines break.
bool tells(const std::string& text, const std::string& part) {
  static const std::regex breaks{"\\n +"};
  return std::regex_replace(text, breaks, " ").find(part) != std::string::npos;
}

/// The sample farm with a map on its first field: a fifth of it heavy.
test::Sample mapped(farm::UnitSystem units) {
  test::Sample s = test::sample(units);
  farm::Farm& f = s.problem.farm;
  f.yield_map.patterns.resize(f.fields.size());
  farm::YieldPattern p;
  p.p10_kg_per_ha = 5600.0;
  p.p90_kg_per_ha = 9050.0;
  p.cv = 0.2;
  p.heavy_from_kg_per_ha = 8500.0;
  p.heavy_kg_per_ha = 9100.0;
  p.heavy_share = 0.21;
  p.zones.push_back({f.fields[0].shape, Hectare{3.78}, KgPerHa{9100.0}});
  f.yield_map.patterns[0] = p;
  f.yield_map.notes = {"Yield map: 90 of 100 points kept; left out: 10 outside the fields"};
  return s;
}

TEST_CASE("the straw table tells spread, heavy ground and where the figure comes from", "[golden]") {
  const test::Sample s = mapped(farm::UnitSystem::si);
  const std::string text = report::straw_text(s.problem.farm);
  CHECK(tells(text, "1 Home check"));
  CHECK(tells(text, "5,600"));
  CHECK(tells(text, "9,050"));
  CHECK(tells(text, "A fifth of it (3.8 ha) carries over 8,500 kg/ha, 9,100 on the mean"));
  CHECK(tells(text, "90 of 100 points kept"));
  CHECK(tells(text, "Heavy straw on 3.8 ha."));
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) CHECK(line.size() <= 100);
}

TEST_CASE("a US farm reads its straw in pounds, acres and short tons", "[identity]") {
  const std::string text = report::straw_text(mapped(farm::UnitSystem::us).problem.farm);
  CHECK(tells(text, "carries over 7,584 lb/ac"));  // 8500 x 0.40468564 / 0.45359237
  CHECK(tells(text, "(9.3 ac)"));                  // 0.21 x 18 ha
  CHECK(tells(text, "short tons"));
  CHECK_FALSE(tells(text, "kg/ha"));
}

TEST_CASE("a farm without a map has its loads and nothing of a spread", "[identity]") {
  const std::string text = report::straw_text(test::sample().problem.farm);
  CHECK(tells(text, "All fields:"));
  CHECK_FALSE(tells(text, "varies"));
  CHECK_FALSE(tells(text, "Heavy straw"));
}

TEST_CASE("where the straw's figure comes from", "[identity]") {
  const auto from = [](const std::function<void(farm::Farm&)>& change) {
    test::Sample s = mapped(farm::UnitSystem::si);
    s.problem.farm.fields.resize(1);
    s.problem.farm.fields[0].load_given = false;
    change(s.problem.farm);
    const std::string text = report::straw_text(s.problem.farm);
    const std::size_t line = text.find("1 Home check");
    return text.substr(line, text.find('\n', line) - line);
  };
  CHECK(tells(from([](farm::Farm&) {}), "own row"));
  CHECK(tells(from([](farm::Farm& f) { f.fields[0].pooled_ticket = "t"; }), "ticket"));
  CHECK(tells(from([](farm::Farm& f) { f.fields[0].load_given = true; }), "entered"));
  CHECK(tells(from([](farm::Farm& f) { f.yield_map.patterns[0]->gives_mean = true; }), "map"));
}

TEST_CASE("plan.json and compare tell how straw varies where a map says so", "[golden]") {
  const test::Sample s = mapped(farm::UnitSystem::si);
  const auto plan = nlohmann::json::parse(report::plan_json(s.problem, s.planned, s.audit));
  const auto& v = plan["fields"][0]["straw"]["variation"];
  CHECK(v["heavy_share"] == 0.21);
  CHECK(v["cv_percent"] == 20.0);
  CHECK(v["heavy_area_ha"] == 3.78);
  CHECK(tells(v["words"], "four fifths of the field carry 5,600 to 9,050 kg/ha"));
  CHECK(plan["fields"][1]["straw"]["variation"].is_null());
  CHECK(tells(report::compare_text(s.problem, s.planned, 0), "Straw varies:"));
  CHECK_FALSE(tells(report::compare_text(s.problem, s.planned, 1), "Straw varies:"));
}

}  // namespace
}  // namespace aftercut
