// The demo farm through the real program: the same bytes whatever the threads and the order of rows; the
// audit; the other commands.

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

#include "catch2/catch.hpp"
#include "command_line.hpp"
#include "sanitized.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::string quick = sanitized ? " --years 2010..2012 --effort 60" : " --years 2016..2023 --effort 1000";

Ran plan(const fs::path& farm, const fs::path& out, const std::string& more) {
  return run_program("plan " + farm.string() + " --out " + out.string() + quick + more);
}

/// The demo planned on one thread: made once, looked at by several tests, changed by none.
struct Planned {
  DemoCopy demo;
  fs::path out = demo.root() / "out";
  Ran ran = plan(demo.farm(), out, " --threads 1");
};
const Planned& planned() {
  static const Planned made;
  if (made.ran.code > 1) throw std::runtime_error("the demo is not planned: " + made.ran.err);
  return made;
}

void reverse_rows(const fs::path& layer) {
  Json fields = Json::parse(text_of(layer));
  std::reverse(fields["features"].begin(), fields["features"].end());
  put_text(layer, fields.dump());
}

void reverse_lists(const fs::path& farm_json) {
  Json farm = Json::parse(text_of(farm_json));
  for (const char* list : {"tractors", "implements", "operators", "field_values", "soils"})
    if (farm.contains(list)) std::reverse(farm[list].begin(), farm[list].end());
  put_text(farm_json, farm.dump());
}

}  // namespace

TEST_CASE("plan.json and bound.json are the same to the byte for any threads and any order of rows",
          "[golden]") {
  const DemoCopy demo;
  REQUIRE(plan(demo.farm(), demo.root() / "b", " --threads 2").code == planned().ran.code);
  reverse_rows(demo.farm() / "fields.geojson");
  reverse_lists(demo.farm() / "farm.json");
  REQUIRE(plan(demo.farm(), demo.root() / "c", " --threads 2").code == planned().ran.code);
  for (const char* file : {"plan.json", "bound.json"})
    for (const char* folder : {"b", "c"}) {
      CAPTURE(file, folder);
      CHECK(text_of(demo.root() / folder / file) == text_of(planned().out / file));
    }
}

TEST_CASE("the audit of a written plan finds nothing, and finds a changed figure", "[golden]") {
  const fs::path farm = planned().demo.farm();
  const Ran sound = run_program("audit " + farm.string() + " " + planned().out.string());
  INFO(sound.out << sound.err);
  CHECK(sound.code == 0);
  CHECK(sound.out.find("The bound was worked out again from its multipliers.") != std::string::npos);
  const DemoCopy other;
  const fs::path spoilt = other.root() / "spoilt";
  fs::copy(planned().out, spoilt, fs::copy_options::recursive);
  Json written = Json::parse(text_of(spoilt / "plan.json"));
  written["objective"]["plan"] = written["objective"]["plan"].get<double>() + 100.0;
  put_text(spoilt / "plan.json", written.dump());
  const Ran changed = run_program("audit " + farm.string() + " " + spoilt.string() + " --json");
  CHECK(changed.code == 1);
  CHECK_FALSE(Json::parse(changed.out)["violations"].empty());
  CHECK(changed.err.find("Not as they were") == std::string::npos);
  edit(other.farm() / "farm.json", "\"diesel\": \"1.05 USD/L\"", "\"diesel\": \"1.15 USD/L\"");
  const Ran other_farm =
      run_program("audit " + other.farm().string() + " " + planned().out.string() + " --quick");
  CHECK(other_farm.code == 1);
  CHECK(other_farm.err.find("Not as they were when the plan was made: farm.json.") != std::string::npos);
}

TEST_CASE("the audit puts the multipliers of bound.json in again, and names what they do not give",
          "[golden]") {
  const DemoCopy other;
  const fs::path spoilt = other.root() / "spoilt";
  fs::copy(planned().out, spoilt, fs::copy_options::recursive);
  const std::string call = "audit " + planned().demo.farm().string() + " " + spoilt.string();
  const Json good = Json::parse(text_of(spoilt / "bound.json"));
  CHECK(good["bound_cents"].get<double>() > good["without_multipliers_cents"].get<double>());
  CHECK(fs::file_size(spoilt / "bound.json") < 1'000'000);
  Json cheaper =
      good;  // a method that is not the least, on a field with a choice: in no sum of the audit's own
  for (Json& field : cheaper["fields"])
    for (Json& method : field["methods"])
      if (!method.contains("by_year_cents")) method["cents"] = method["cents"].get<double>() + 1000.0;
  put_text(spoilt / "bound.json", cheaper.dump());
  const Ran quick_look = run_program(call + " --quick");
  INFO(quick_look.out << quick_look.err);
  CHECK(quick_look.code == 0);
  CHECK(quick_look.out.find("was not worked out again (--quick)") != std::string::npos);
  const Ran whole = run_program(call);
  CHECK(whole.code == 1);
  CHECK(whole.out.find("bound not what its multipliers give: ") != std::string::npos);
  CHECK(whole.out.find("bound.json") != std::string::npos);
  fs::remove(spoilt / "bound.json");
  const Ran missing = run_program(call);
  CHECK(missing.code == 1);
  CHECK(missing.out.find("bound without its multipliers: bound.json") != std::string::npos);
}

TEST_CASE("every file of a plan is there and is what it says", "[golden]") {
  for (const char* file :
       {"plan.json", "plan-years.jsonl", "bound.json", "report.html", "work.csv", "fields.gpkg"}) {
    CAPTURE(file);
    CHECK(fs::file_size(planned().out / file) > 500);
  }
  const Json written = Json::parse(text_of(planned().out / "plan.json"));
  CHECK(written["fields"].size() == 24);
  CHECK(written["audit"]["ok"] == true);
}

TEST_CASE("check tells where each soil becomes workable by both published rules", "[golden]") {
  const DemoCopy demo;
  const Ran ran = run_program("check " + demo.farm().string());
  INFO(ran.out << ran.err);
  CHECK(ran.code == 0);
  for (const char* soil : {"Soil clay: workable below", "Soil silty clay: workable below"})
    CHECK(ran.out.find(soil) != std::string::npos);
  CHECK(ran.out.find("10 % air gives") != std::string::npos);
  CHECK(ran.out.find("the inflection rule") != std::string::npos);
  CHECK(ran.out.find("too dry to finish below") != std::string::npos);
}

TEST_CASE("compare shows every method of one field", "[golden]") {
  const DemoCopy demo;
  const Ran text = run_program("compare " + demo.farm().string() + " --field A3" + quick);
  INFO(text.out << text.err);
  CHECK(text.code == 0);
  const Ran json = run_program("compare " + demo.farm().string() + " --field A3 --json" + quick);
  const Json fields = Json::parse(json.out)["fields"];
  REQUIRE(fields.size() == 1);
  CHECK(fields[0]["methods"].size() >= 10);
  CHECK(run_program("compare " + demo.farm().string() + " --field nowhere" + quick).code == 2);
}

TEST_CASE("help of every command ends with an example", "[golden]") {
  for (const char* name :
       {"check", "plan", "compare", "straw", "audit", "what-if", "new", "invent-weather"}) {
    const Ran help = run_program(std::string{name} + " --help");
    CHECK(help.code == 0);
    CHECK(help.out.find("Example: aftercut " + std::string{name}) != std::string::npos);
  }
  CHECK(run_program("--version").code == 0);
  CHECK(run_program("").code == 2);
  CHECK(run_program("plough").code == 2);
}

TEST_CASE("passes are laid on every field, the shape that loses most first, and written as lines",
          "[identity]") {
  const DemoCopy demo;
  const std::filesystem::path lines = demo.root() / "passes.geojson";
  const Ran ran =
      run_program("passes " + demo.farm().string() + " --implement plane --out " + lines.string());
  REQUIRE(ran.code == 0);
  CHECK(ran.out.find("land plane, 5.2 m") != std::string::npos);
  CHECK(ran.out.find("All fields once:") != std::string::npos);
  const std::size_t notch = ran.out.find("D2 Notch"), big = ran.out.find("D5 Big South");
  REQUIRE(notch != std::string::npos);
  CHECK(notch < big);
  const auto layer = nlohmann::json::parse(text_of(lines));
  std::set<std::string> fields;
  for (const auto& feature : layer.at("features")) {
    fields.insert(feature.at("properties").at("field").get<std::string>());
    CHECK(feature.at("geometry").at("coordinates").size() >= 2);
  }
  CHECK(fields.size() == 24);
  const Ran one = run_program("passes " + demo.farm().string() + " --implement plane --threads 1");
  CHECK(ran.out.substr(0, one.out.size()) == one.out);
}

TEST_CASE("an implement that the farm does not have is named, with those it has", "[identity]") {
  const DemoCopy demo;
  const Ran ran = run_program("passes " + demo.farm().string() + " --implement plough");
  CHECK(ran.code == 2);
  CHECK(ran.err.find("--implement") != std::string::npos);
  CHECK(ran.err.find("land plane") == std::string::npos);
  CHECK(ran.err.find("disk 1") != std::string::npos);
}

TEST_CASE("machines and stacks of the demo: tables that fit, and a map of the ways", "[golden]") {
  const DemoCopy demo;
  const auto fits = [](const std::string& text) {
    std::size_t from = 0;
    while (from < text.size()) {
      const std::size_t end = std::min(text.find('\n', from), text.size());
      const std::string line = text.substr(from, end - from);
      INFO(line);
      // Columns: a character of several bytes (the sign of degrees) takes one.
      CHECK(std::ranges::count_if(
                line, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }) <= 100);
      from = end + 1;
    }
  };
  const Ran machines = run_program("machines " + demo.farm().string());
  CHECK(machines.code == 0);
  fits(machines.out);
  CHECK(machines.out.find("T3 is away 15 Aug to 4 Oct: pulls bankout wagons at harvest") !=
        std::string::npos);
  CHECK(machines.out.find("NONE") == std::string::npos);
  const fs::path map = demo.root() / "stacks.geojson";
  const Ran stacks = run_program("stacks " + demo.farm().string() + " --out " + map.string());
  CHECK(stacks.code == 0);
  fits(stacks.out);
  CHECK(stacks.out.find("from Power line: 10.0 m is kept (from_power_line)") != std::string::npos);
  const Json ways = Json::parse(text_of(map));
  std::set<std::string> kinds;
  for (const Json& f : ways["features"]) kinds.insert(f["properties"]["kind"].get<std::string>());
  CHECK(kinds == std::set<std::string>{"stack", "way"});
  // Without a tractor that is strong enough the table, the check and the method say so.
  edit(demo.farm() / "farm.json", "\"pto_power_kw\": 220", "\"pto_power_kw\": 90");
  edit(demo.farm() / "farm.json", "\"pto_power_kw\": 150", "\"pto_power_kw\": 90");
  edit(demo.farm() / "farm.json", "\"pto_power_kw\": 130", "\"pto_power_kw\": 90");
  const std::string words = "No tractor pulls chisel 5.6 m at 8.0 km/h asks ";
  CHECK(run_program("check " + demo.farm().string()).out.find(words) != std::string::npos);
  const Ran weak = run_program("machines " + demo.farm().string());
  CHECK(weak.out.find("NONE") != std::string::npos);
  CHECK(weak.out.find(words.substr(0, 30)) != std::string::npos);
}
