// Trade-offs through the real program.

#include <filesystem>
#include <nlohmann/json.hpp>

#include "catch2/catch.hpp"
#include "command_line.hpp"
#include "sanitized.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;

TEST_CASE("trade-offs writes whole plans that the audit passes, and a page", "[golden]") {
  const DemoCopy demo;
  const auto out = demo.root() / "trade-offs";
  const Ran ran = run_program(
      "trade-offs " + demo.farm().string() + " --out " + out.string() +
      (sanitized ? " --years 1998..1999 --effort 20" : " --years 1998..2000 --effort 150") + " --json");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const Json all = Json::parse(ran.out);
  REQUIRE(all["plans"].size() >= 2);
  for (const Json& p : all["plans"]) CHECK(p["audit"]["ok"] == true);
  const std::string last = all["plans"].back()["folder"];
  CHECK(run_program("audit " + demo.farm().string() + " " + (out / last).string()).code == 0);
  CHECK_FALSE(std::filesystem::exists(out / last / "bound.json"));
  CHECK(text_of(out / "trade-offs.html").find("<svg") != std::string::npos);
  CHECK(Json::parse(text_of(out / "trade-offs.json")) == all);
}
