// The hindcast through the real program.

#include <algorithm>
#include <nlohmann/json.hpp>

#include "catch2/catch.hpp"
#include "command_line.hpp"
#include "sanitized.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;

TEST_CASE("a hindcast says chances in past winters, beside what then happened", "[golden]") {
  const DemoCopy demo;
  const std::string asked = "hindcast " + demo.farm().string() + " --years 1998..2001 --dates 03-01,11-01 " +
                            "--evaluations " + (sanitized ? "5" : "30");
  const std::string out = (demo.root() / "out").string();
  const Ran ran = run_program(asked + " --json --threads 2 --out " + out);
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const Json hindcast = Json::parse(ran.out);
  CHECK(hindcast["plans"].size() == 4);
  REQUIRE(hindcast["dates"].size() == 2);
  CHECK(hindcast["dates"][0]["date"] == "11-01");
  const std::size_t said = hindcast["dates"][0]["said"].size();
  CHECK(said % 4 == 0);
  CHECK(said > 4);
  const std::string csv = text_of(demo.root() / "out" / "hindcast.csv");
  CHECK(static_cast<std::size_t>(std::count(csv.begin(), csv.end(), '\n')) == 1 + 2 * said);
  CHECK(text_of(demo.root() / "out" / "hindcast.svg").find("</svg>") != std::string::npos);
  CHECK(run_program(asked + " --json --threads 1").out == ran.out);
  CHECK(run_program(asked).out.find("Said on 1 Mar") != std::string::npos);
}

TEST_CASE("dates outside the season and too few winters are issues of the input", "[golden]") {
  const DemoCopy demo;
  const std::string asked = "hindcast " + demo.farm().string();
  for (const char* dates : {"07-20", "13-01", "1 March", "11-01,xx"}) {
    CAPTURE(dates);
    const Ran ran = run_program(asked + " --dates \"" + dates + "\" --out " + (demo.root() / "out").string());
    CHECK(ran.code == 2);
    CHECK(ran.err.find("--dates") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(demo.root() / "out"));
  }
  const Ran few = run_program(asked + " --years 1998..1999");
  CHECK(few.code == 2);
  CHECK(few.err.find("3 whole seasons") != std::string::npos);
}
