// Scenarios and the server through the real program.

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "catch2/catch.hpp"
#include "command_line.hpp"

using namespace aftercut::test;
namespace fs = std::filesystem;

namespace {

const char* const small = " --as-of 2026-10-12 --years 1998..1999 --effort 20 --bound-rounds 0 --one-more 0";

void keep(const DemoCopy& demo, const std::string& name, const std::string& text) {
  fs::create_directories(demo.farm() / "scenarios");
  std::ofstream{demo.farm() / "scenarios" / (name + ".json")} << text;
}

}  // namespace

TEST_CASE("a plan under a scenario is made and audited under it; farm.json stays", "[golden]") {
  const DemoCopy demo;
  const std::string before = text_of(demo.farm() / "farm.json");
  keep(
      demo, "fixed",
      R"({"name": "x", "changes": [{"change": "fix_method", "field": "B1", "method": "leave"}, {"change": "set_price", "what": "straw", "price": "40 USD/t"}]})");
  const fs::path out = demo.root() / "fixed";
  const Ran ran =
      run_program("plan " + demo.farm().string() + " --scenario fixed --out " + out.string() + small);
  INFO(ran.err);
  REQUIRE(ran.code <= 1);
  const auto plan = nlohmann::json::parse(text_of(out / "plan.json"));
  for (const auto& field : plan["fields"])
    if (field["id"] == "B1") CHECK(field["chosen"]["method"] == "leave");
  CHECK(text_of(demo.farm() / "farm.json") == before);
  const std::string audit = "audit " + demo.farm().string() + " " + out.string() + " --quick";
  CHECK(run_program(audit + " --scenario fixed").code == 0);
  CHECK(run_program(audit).code != 0);  // without the scenario it is another farm's plan
}

TEST_CASE("a scenario that is faulty or not there is told, and nothing is written", "[identity]") {
  const DemoCopy demo;
  keep(
      demo, "faulty",
      R"({"changes": [{"change": "fix_method", "field": "Z1", "method": "leaf"}, {"change": "move_harvest", "field": "A1", "day": "soon"}]})");
  keep(demo, "unknown", R"({"changes": [{"change": "fix_method", "field": "Z1", "method": "leaf"}]})");
  const fs::path out = demo.root() / "none";
  const auto planned = [&](const std::string& name) {
    return run_program("plan " + demo.farm().string() + " --scenario " + name + " --out " + out.string() +
                       small);
  };
  const Ran faulty = planned("faulty");
  CHECK(faulty.code == 2);
  CHECK(faulty.err.find("changes[1].day") != std::string::npos);
  const Ran unknown = planned("unknown");
  CHECK(unknown.code == 2);
  CHECK(unknown.err.find("Z1") != std::string::npos);
  CHECK(unknown.err.find("leaf") != std::string::npos);
  const Ran none = planned("nowhere");
  CHECK(none.code == 2);
  CHECK(none.err.find("one of faulty, unknown") != std::string::npos);
  CHECK(planned("../farm").code == 2);
  CHECK_FALSE(fs::exists(out));
}

TEST_CASE("a server that cannot begin says why", "[identity]") {
  const DemoCopy demo;
  const std::string serve = "serve " + demo.farm().string() + " --out " + (demo.root() / "o").string();
  CHECK(run_program(serve + " --key short").code == 2);
  CHECK(run_program(serve + " --port 70000").code == 2);
  const Ran address = run_program(serve + " --address 203.0.113.7 --port 8499");
  CHECK(address.code == 2);
  CHECK(address.err.find("--port") != std::string::npos);
  CHECK(run_program("serve " + (demo.root() / "nowhere").string() + " --out x").code == 2);
}
