#include <nlohmann/json.hpp>

#include "aftercut/core/save_file.hpp"
#include "aftercut/weather/generator.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::weather;
using nlohmann::json;

namespace {

json valley_json() {
  return json::parse(read_file(AFTERCUT_SOURCE_DIR "/weather/valley-parameters.json").value());
}

Issues faults(const json& parameters) {
  return read_generator_parameters(parameters.dump(), "p.json").issues();
}

std::string only_place(const json& parameters) {
  const Issues issues = faults(parameters);
  for (const Issue& issue : issues) UNSCOPED_INFO(to_text(issue));
  REQUIRE(issues.size() == 1);
  CHECK(issues[0].file == "p.json");
  CHECK_FALSE(issues[0].fix.empty());
  return issues[0].place;
}

}  // namespace

TEST_CASE("The valley parameters are read whole", "[identity]") {
  const GeneratorParameters p = read_generator_parameters(valley_json().dump(), "p.json").value();
  CHECK(p.site.latitude_deg == 39.2);
  CHECK(p.site.longitude_deg == -140.0);
  CHECK(p.site.elevation_m == 20.0);
  CHECK(p.site.utc_offset_h == -9.0);
  CHECK_FALSE(p.site.near_coast);
  CHECK(p.seed == 31);
  CHECK(p.months[0].p_wet_after_dry == 0.230);
  CHECK(p.months[9].gamma_scale_mm == 9.61);
  CHECK(p.months[11].tmax_c == 12.7);
}

TEST_CASE("Faults of a parameter file, each with its place", "[identity]") {
  json p = valley_json();
  p["months"][3].erase("gamma_shape");
  CHECK(only_place(p) == "months[3].gamma_shape");
  p = valley_json();
  p["months"][0]["p_wet_after_dry"] = 1.2;
  CHECK(only_place(p) == "months[0].p_wet_after_dry");
  p = valley_json();
  p["months"][0]["tmax_c"] = "12.8 C";
  CHECK(only_place(p) == "months[0].tmax_c");
  p = valley_json();
  p["months"][11]["gamma_scale_m"] = 1.0;
  CHECK(only_place(p) == "months[11].gamma_scale_m");
  p = valley_json();
  p["months"][5]["month"] = 5;
  CHECK(only_place(p) == "months[5].month");
  p = valley_json();
  p["months"].erase(11);
  CHECK(only_place(p) == "months");
  p = valley_json();
  p["months"][2] = 7;
  CHECK(only_place(p) == "months[2]");
  p = valley_json();
  p.erase("site");
  CHECK(only_place(p) == "site");
  p = valley_json();
  p["site"]["near_coast"] = "yes";
  CHECK(only_place(p) == "site.near_coast");
  p = valley_json();
  p["seed"] = -4;
  CHECK(only_place(p) == "seed");
  p = valley_json();
  p["yearly_sd"] = 0.4;
  CHECK(only_place(p) == "yearly_sd");
}

TEST_CASE("Text that is no JSON object, and several faults at once", "[identity]") {
  CHECK(read_generator_parameters("{\"site\": ", "p.json").issues().at(0).place == "whole file");
  CHECK(read_generator_parameters("[1, 2]", "p.json").issues().at(0).place == "whole file");
  json p = valley_json();
  p.erase("seed");
  p["site"]["latitude_deg"] = 120;
  p["months"][1].erase("tmax_c");
  p["months"][7]["wind_m_s"] = nullptr;
  CHECK(faults(p).size() == 4);
}
