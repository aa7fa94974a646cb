// The trial through the real program.

#include <nlohmann/json.hpp>

#include "catch2/catch.hpp"
#include "command_line.hpp"
#include "sanitized.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;

TEST_CASE("try plans on half of the years and plays the plan on the others and on invented ones",
          "[golden]") {
  const DemoCopy demo;
  const std::string asked = "try " + demo.farm().string() + " --years 1998..2001 --invented 6 --effort " +
                            (sanitized ? "30" : "300");
  const Ran ran = run_program(asked + " --json --threads 2");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const Json trial = Json::parse(ran.out);
  REQUIRE(trial["sets"].size() == 3);
  CHECK(trial["sets"][0]["years"] == Json::parse("[1998,2000]"));
  CHECK(trial["sets"][1]["years"] == Json::parse("[1999,2001]"));
  CHECK(trial["sets"][2]["count"] == 6);
  CHECK(trial["sets"][2]["cost"]["mean"].get<double>() > 0.0);
  CHECK(trial["invented"]["drawn_by"] == "fitted to the farm's record");
  CHECK(run_program(asked + " --json --threads 1").out == ran.out);
  CHECK(run_program(asked).out.find("searched on") != std::string::npos);
}

TEST_CASE("a single year, or a parameter file that is none, is an issue of the input", "[golden]") {
  const DemoCopy demo;
  const std::string farm = demo.farm().string();
  CHECK(run_program("try " + farm + " --years 1998..1998").code == 2);
  CHECK(run_program("try " + farm + " --parameters " + (demo.root() / "none.json").string()).code == 2);
}
