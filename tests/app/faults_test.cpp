// Exit codes: bad input is 2 with every issue and nothing written; what is nobody's mistake is 1 with a plan;
// never 3.

#include <functional>
#include <nlohmann/json.hpp>
#include <vector>

#include "catch2/catch.hpp"
#include "command_line.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

Json troubles_of(const fs::path& out) { return Json::parse(text_of(out / "plan.json"))["troubles"]; }

bool named(const Json& troubles, const std::string& name) {
  for (const auto& t : troubles)
    if (t["name"] == name) return true;
  return false;
}

/// A change to the demo's farm.json that is nobody's mistake, and the name under which the plan must tell it.
struct Outcome {
  const char* name;
  std::function<void(Json&)> change;
};

Json& entry(Json& farm, const std::string& field) {
  for (Json& v : farm["field_values"])
    if (v["id"] == field) return v;
  farm["field_values"].push_back({{"id", field}});
  return farm["field_values"].back();
}

std::vector<Outcome> outcomes() {
  return {{"every method is barred",
           [](Json& farm) {
             for (const char* m : {"bale", "bale_disk", "bale_flood", "burn", "chop_disk", "chop_disk_flood",
                                   "roll_flood", "flood", "roll_rain", "leave"})
               entry(farm, "B2")["not_allowed"].push_back({{"method", m}, {"why", "the lease"}});
           }},
          {"no straw", [](Json& farm) { entry(farm, "B2")["straw_load"] = "0 kg/ha"; }},
          {"harvest after the planting date",
           [](Json& farm) {
             Json& v = entry(farm, "B2");
             v["cut"] = false;
             v["harvest"] = "2027-05-20";
             v["planting_date"] = "2027-05-10";
           }},
          {"no machine for a needed pass", [](Json& farm) {
             Json kept = Json::array();
             for (const Json& i : farm["implements"])
               if (i["kind"] != "grooved_roller") kept.push_back(i);
             farm["implements"] = kept;
           }}};
}

/// The first `days` lines of the demo's weather, header kept.
void shorten_weather(const fs::path& csv, int days) {
  const std::string text = text_of(csv);
  std::size_t at = 0;
  for (int line = 0; line <= days; ++line) at = text.find('\n', at) + 1;
  put_text(csv, text.substr(0, at));
}

}  // namespace

TEST_CASE("two faults at once are both listed and nothing is written", "[golden]") {
  const DemoCopy demo;
  const fs::path farm = demo.farm() / "farm.json";
  Json json = Json::parse(text_of(farm));
  json["currency"] = 7;
  json["target"]["wanted_chance"] = 1.7;
  put_text(farm, json.dump());
  const Ran plan = run_program("plan " + demo.farm().string() + " --out " + (demo.root() / "out").string());
  CHECK(plan.code == 2);
  for (const char* part : {"currency", "wanted_chance", "found:", "expected:", "fix:"}) {
    CAPTURE(part, plan.err);
    CHECK(plan.err.find(part) != std::string::npos);
  }
  CHECK_FALSE(fs::exists(demo.root() / "out"));
  const Ran check = run_program("check --json " + demo.farm().string());
  CHECK(check.code == 2);
  CHECK(Json::parse(check.out)["issues"].size() >= 2);
}

TEST_CASE("options that make no sense are bad input", "[golden]") {
  const DemoCopy demo;
  const std::string call = "plan " + demo.farm().string() + " --out " + (demo.root() / "out").string();
  CHECK(run_program(call + " --years 2005..1998").code == 2);
  CHECK(run_program(call + " --years soon").code == 2);
  CHECK(run_program(call + " --as-of 2026-13-45").code == 2);
  CHECK(run_program(call + " --threads many").code == 2);
  CHECK(run_program("check " + (demo.root() / "nowhere").string()).code == 2);
  CHECK(run_program("audit " + demo.farm().string() + " " + (demo.root() / "plan.json").string()).code == 2);
  CHECK_FALSE(fs::exists(demo.root() / "out"));
}

TEST_CASE("outcomes that are nobody's mistake have a name, the closest plan and exit 1", "[golden]") {
  for (const Outcome& o : outcomes()) {
    const DemoCopy demo;
    Json farm = Json::parse(text_of(demo.farm() / "farm.json"));
    o.change(farm);
    put_text(demo.farm() / "farm.json", farm.dump());
    const fs::path out = demo.root() / "out";
    const Ran plan = run_program("plan " + demo.farm().string() +
                                 " --years 1998..2001 --effort 10 --as-of 2026-10-12 --out " + out.string());
    INFO(o.name << ": " << plan.out << plan.err);
    CHECK(plan.code == 1);
    REQUIRE(fs::exists(out / "plan.json"));
    CHECK(named(troubles_of(out), o.name));
    CHECK(Json::parse(text_of(out / "plan.json"))["audit"]["ok"] == true);
  }
}

TEST_CASE("one weather year, or less than a season of record: a plan, a name for it, exit 1", "[golden]") {
  const DemoCopy demo;
  const fs::path out = demo.root() / "out";
  const std::string call = "plan " + demo.farm().string() + " --effort 20 --out " + out.string();
  CHECK(run_program(call + " --years 2001").code == 1);
  CHECK(named(troubles_of(out), "one weather year only"));
  shorten_weather(demo.root() / "weather" / "valley-30-years.csv", 120);
  const Ran brief = run_program(call);
  INFO(brief.err);
  CHECK(brief.code == 1);
  CHECK(named(troubles_of(out), "weather record shorter than a season"));
}

TEST_CASE("a full disk or a folder that cannot be written is said, exit 2", "[golden]") {
  const DemoCopy demo;
  put_text(demo.root() / "file", "not a folder");
  const Ran plan = run_program("plan " + demo.farm().string() + " --effort 20 --years 2001 --out " +
                               (demo.root() / "file" / "out").string());
  CHECK(plan.code == 2);
  CHECK(text_of(demo.root() / "file") == "not a folder");
}

TEST_CASE("the invented weather of the project is what its parameters give", "[golden]") {
  const DemoCopy demo;
  const fs::path out = demo.root() / "again.csv";
  const Json parameters = Json::parse(text_of(demo.root() / "weather" / "valley-parameters.json"));
  CHECK(run_program("invent-weather " + (demo.root() / "weather" / "valley-parameters.json").string() +
                    " --out " + out.string() + " --first-year 1996 --years 30")
            .code == 0);
  CHECK(text_of(out) == text_of(demo.root() / "weather" / "valley-30-years.csv"));
}
