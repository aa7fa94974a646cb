// what-if.json against its schema, the table in the terminal, the folders written.

#include "aftercut/report/what_if.hpp"

#include <filesystem>
#include <regex>

#include "catch2/catch.hpp"
#include "departures.hpp"
#include "sample_farm.hpp"
#include "terminal.hpp"

namespace aftercut {
namespace {

using nlohmann::json;

struct Shown {
  test::Sample sample = test::sample(farm::UnitSystem::si);
  plan::WhatIf all;
  report::WhatIfShown shown;

  Shown() {
    all.base = sample.planned;
    all.base_figures = {.cost_cents = 10234567, .cost_per_ha = 180.0, .chance = 0.829, .baled_t = 700.0};
    plan::CaseResult c{.name = "no-baler", .title = "no baler comes"};
    c.planned = c.kept = sample.planned;
    c.planned_figures = {.cost_cents = 11000000, .cost_per_ha = 193.4, .chance = 0.78, .below_wanted = 2};
    c.kept_figures = {.cost_cents = 12000000, .cost_per_ha = 211.0, .chance = 0.75, .burned_ha = 3.25};
    c.changes = {{0, 0, 1}, {1, 0, 1}, {3, 2, plan::none}};
    c.replaced = {{1, 0, 1}};
    all.cases = {c, c};
    all.cases[1].name = "set-1";
    all.cases[1].title = "prices.straw=40 USD/t";
    all.cases[1].set = {{"prices.straw", "40 USD/t"}};
    all.cases[1].note = "straw brings nothing here";
    all.cases[1].changes.clear();
    all.cases[1].kept_figures.cost_per_ha = 180.0;
    shown = {&sample.problem, &all, sample.audit, {{}, {}}, {&sample.problem, &sample.problem}};
    shown.audits[1].kept.count = 3;
  }
};

}  // namespace

TEST_CASE("what-if.json keeps to its schema and tells both columns", "[golden]") {
  const Shown s;
  const json written = json::parse(report::what_if_json(s.shown));
  CHECK(test::departures_from("what-if.schema.json", written) == std::vector<std::string>{});
  const json& first = written["cases"][0];
  CHECK(first["planned_again"]["change_per_ha"] == 13.4);
  CHECK(first["plan_kept"]["burned_ha"] == 3.25);
  CHECK(first["planning_again_saves_per_ha"] == 17.6);
  CHECK(first["planned_again"]["changes"].size() == 3);
  CHECK(first["planned_again"]["changes"][2]["to"].is_null());
  CHECK(written["cases"][1]["set"][0]["value"] == "40 USD/t");
  json without = written;
  without["cases"][0]["planned_again"].erase("changes");
  CHECK_FALSE(test::departures_from("what-if.schema.json", without).empty());
}

TEST_CASE("the table of what-ifs fits the terminal and says what changes", "[golden]") {
  const Shown s;
  const std::string text = report::what_if_text(s.shown);
  INFO(text);
  CHECK(test::longest_line(text) <= 100);
  const std::string words = std::regex_replace(text, std::regex{"\\s+"}, " ");
  CHECK(text.find("+13") != std::string::npos);
  CHECK(text.find("82 %") != std::string::npos);  // 0.829: never rounded up
  CHECK(words.find("Planning again saves 18 ") != std::string::npos);
  CHECK(words.find("No field changes its method") != std::string::npos);
  CHECK(words.find("The plan kept does better by 13 ") != std::string::npos);
  CHECK(words.find("Audit of the plan kept: 3 faults") != std::string::npos);
}

TEST_CASE("the base and every case get a folder with a whole plan", "[golden]") {
  namespace fs = std::filesystem;
  const Shown s;
  const fs::path out = fs::temp_directory_path() / "aftercut-what-if-test";
  fs::remove_all(out);
  REQUIRE(report::write_what_if(s.shown, out).ok());
  for (const char* folder : {"base", "no-baler", "set-1"})
    for (const char* file : {"plan.json", "plan-years.jsonl", "report.html"})
      CHECK(fs::file_size(out / folder / file) > 500);
  CHECK(fs::exists(out / "what-if.json"));
  fs::remove_all(out);
}

}  // namespace aftercut
