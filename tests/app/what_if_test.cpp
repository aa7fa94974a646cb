// What-ifs through the real program: cases, settings, exit codes, and the audit of what was written.

#include <algorithm>
#include <nlohmann/json.hpp>

#include "catch2/catch.hpp"
#include "command_line.hpp"
#include "sanitized.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

const int years = sanitized ? 3 : 6;
const std::string quick_case =
    sanitized ? " --years 1998..2000 --effort 30" : " --years 1998..2003 --effort 600";

const Json& case_named(const Json& what_if, const std::string& name) {
  for (const Json& c : what_if.at("cases"))
    if (c.at("name") == name) return c;
  throw std::runtime_error("no case " + name);
}

}  // namespace

TEST_CASE("what-if plans the cases and settings asked for, side by side, each audited", "[golden]") {
  const DemoCopy demo;
  const fs::path out = demo.root() / "what-if";
  const std::string farm = demo.farm().string();
  const Ran ran = run_program("what-if " + farm + " --out " + out.string() + quick_case +
                              " --case no-baler --case straw-doubled --set \"prices.straw=56 USD/t\"");
  INFO(ran.out << ran.err);
  REQUIRE(ran.code == 0);
  CHECK(ran.out.find("no baler comes") != std::string::npos);
  const Json all = Json::parse(text_of(out / "what-if.json"));
  REQUIRE(all["cases"].size() == 3);
  CHECK(case_named(all, "no-baler")["planned_again"]["baled_t"] == 0.0);
  CHECK(case_named(all, "no-baler")["plan_kept"]["baled_t"] == 0.0);
  // Twice 28 USD/t, as a case and as a setting: the same plan.
  const Json &doubled = case_named(all, "straw-doubled"), &set = case_named(all, "set-1");
  CHECK(doubled["planned_again"]["cost"] == set["planned_again"]["cost"]);
  CHECK(doubled["plan_kept"]["cost"] == set["plan_kept"]["cost"]);
  CHECK(doubled["planned_again"]["baled_t"].get<double>() >= all["base"]["baled_t"].get<double>());
  CHECK(run_program("audit " + farm + " " + (out / "base").string()).code == 0);
  CHECK_FALSE(fs::exists(out / "base" / "bound.json"));  // plans side by side have no bound
  CHECK(run_program("audit " + farm + " " + (out / "no-baler").string() + " --case no-baler").code == 0);
  CHECK(run_program("audit " + farm + " " + (out / "set-1").string() + " --set \"prices.straw=56 USD/t\"")
            .code == 0);
  CHECK(run_program("audit " + farm + " " + (out / "set-1").string()).code == 1);  // another price
}

TEST_CASE("dry years are a third of the years, planned and audited", "[golden]") {
  const DemoCopy demo;
  const fs::path out = demo.root() / "what-if";
  const Ran ran = run_program("what-if " + demo.farm().string() + " --out " + out.string() + quick_case +
                              " --case dry-years --json");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const Json all = Json::parse(ran.out);
  CHECK(static_cast<int>(all["years"].size()) == years);
  CHECK(case_named(all, "dry-years")["years"].size() == years / 3);
  CHECK(
      run_program("audit " + demo.farm().string() + " " + (out / "dry-years").string() + " --case dry-years")
          .code == 0);
}

TEST_CASE("a setting that leads nowhere or holds a bad value is an issue of the input", "[golden]") {
  const DemoCopy demo;
  const fs::path out = demo.root() / "never";
  const auto what_if = [&](const std::string& set) {
    return run_program("what-if " + demo.farm().string() + " --out " + out.string() + quick_case +
                       " --set \"" + set + "\"");
  };
  for (const char* bad : {"prices.straw=40", "prices.strw=40 USD/t", "implements.plough.width_m=3",
                          "target.wanted_chance=1.5", "prices.straw", "prices.straw=40 EUR/t"}) {
    INFO(bad);
    const Ran ran = what_if(bad);
    CHECK(ran.code == 2);
    CHECK(ran.err.find("expected:") != std::string::npos);
  }
  CHECK(run_program("what-if " + demo.farm().string() + " --out " + out.string() + " --case flood").code ==
        2);
  CHECK_FALSE(fs::exists(out));
}

TEST_CASE("plan takes --set too, and the toss-up settings of the target are read", "[golden]") {
  const DemoCopy demo;
  const fs::path out = demo.root() / "out";
  const Ran ran = run_program("plan " + demo.farm().string() + " --out " + out.string() + quick_case +
                              " --set \"target.toss_up_margin=100000 USD/ha\"");
  REQUIRE(ran.code <= 1);
  const Json written = Json::parse(text_of(out / "plan.json"));
  for (const Json& field : written["fields"]) {
    const Json& chosen = field["chosen"];
    if (chosen["next_best"].is_null()) continue;
    CHECK(chosen["toss_up_with"] == chosen["next_best"]["method"]);
    CHECK(chosen["toss_up_because"][0] == "margin");
  }
}

TEST_CASE("a high wish, as a constraint and told only: planned, explained and audited", "[golden]") {
  const DemoCopy demo;
  const fs::path out = demo.root() / "what-if";
  const std::string farm = demo.farm().string();
  const std::string wish = "target.wanted_chance=0.95", told = wish + "; target.risk=price";
  const Ran ran = run_program("what-if " + farm + " --out " + out.string() + quick_case + " --set \"" + wish +
                              "\" --set \"" + told + "\"");
  INFO(ran.out << ran.err);
  REQUIRE(ran.code == 0);
  CHECK(run_program("audit " + farm + " " + (out / "set-1").string() + " --set \"" + wish + "\"").code == 0);
  CHECK(run_program("audit " + farm + " " + (out / "set-2").string() + " --set \"" + told + "\"").code == 0);
  const Json bound = Json::parse(text_of(out / "set-1" / "plan.json"))["target"];
  const Json price = Json::parse(text_of(out / "set-2" / "plan.json"))["target"];
  CHECK(bound["risk"] == "both");
  CHECK(price["risk"] == "price");
  CHECK(price["in_the_way"].empty());
  const auto short_of = [](const Json& target) {
    int years_short = 0;
    for (const Json& f : target["fields"])
      years_short += std::max(0, target["search_years"].get<int>() - f["ready_searched"].get<int>());
    return years_short;
  };
  CHECK(short_of(bound) <= short_of(price));  // 0.95 of three years are three
  std::size_t below = 0;
  for (const Json& f : bound["fields"]) below += f["met_shown"].get<bool>() ? 0 : 1;
  CHECK(bound["in_the_way"].size() == below);
  for (const Json& way : bound["in_the_way"]) CHECK(way["words"].size() >= 2);
}
