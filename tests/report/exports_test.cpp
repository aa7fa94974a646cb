// Every export: from plan.json's text alone, the same bytes each time, and issues for a broken plan.
#include "aftercut/report/exports.hpp"

#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

using nlohmann::json;
using report::ExportOptions;
using report::Language;
using report::Paper;

std::string made(const std::string& plan, const std::string& name, const ExportOptions& options = {}) {
  const auto out = report::export_of(plan, name, options);
  INFO(name);
  REQUIRE(out.ok());
  CHECK(out.value().name == name);
  return out.value().bytes;
}

std::vector<std::string> html_names() {
  std::vector<std::string> names;
  for (const std::string& n : report::export_names())
    if (n.ends_with(".html")) names.push_back(n);
  return names;
}

std::vector<ExportOptions> all_options() {
  return {{Paper::a4, Language::english}, {Paper::letter, Language::spanish}};
}

}  // namespace

TEST_CASE("every export is made, and again the same", "[identity]") {
  const std::string plan = plan_text(test::sample());
  CHECK(report::export_names() == std::vector<std::string>{"work.xlsx", "calendar.ics", "truck-sheet.html",
                                                           "truck-sheet.txt", "work-lists.html",
                                                           "combine-card.html", "field-sheets.html"});
  for (const std::string& name : report::export_names())
    for (const ExportOptions& o : all_options()) {
      const std::string bytes = made(plan, name, o);
      CHECK(bytes.size() > 500);
      CHECK(bytes == made(plan, name, o));
    }
}

TEST_CASE("sheets stand alone: paper, no program, nothing from the network", "[identity]") {
  const std::string plan = plan_text(test::sample());
  for (const std::string& name : html_names())
    for (const ExportOptions& o : all_options()) {
      const std::string page = made(plan, name, o);
      INFO(name);
      CHECK(page.find(o.paper == Paper::a4 ? "@page{size:A4" : "@page{size:letter") != std::string::npos);
      CHECK(page.find("<script") == std::string::npos);
      CHECK(page.find("http:") == std::string::npos);
      CHECK(page.find("https:") == std::string::npos);
      CHECK(page.find("default-src 'none'") != std::string::npos);
    }
}

TEST_CASE("every field stands on the truck sheet with what it needs", "[identity]") {
  const std::string plan = plan_text(test::sample());
  for (const char* name : {"truck-sheet.html", "truck-sheet.txt"}) {
    const std::string sheet = made(plan, name);
    for (const char* words :
         {"Home check", "Long check", "Far lease", "Bale, disk", "Rake", "chop, disk", "week",
          "district air office", "No bound was worked out", "CO2e", "Operator A", "10 m off"}) {
      INFO(name << ": " << words);
      const auto same = [](char a, char b) { return std::tolower(a) == std::tolower(b); };
      const std::string wanted = words;
      CHECK(std::search(sheet.begin(), sheet.end(), wanted.begin(), wanted.end(), same) != sheet.end());
    }
  }
}

TEST_CASE("lines of a message have at most 60 characters, and no word is lost", "[identity]") {
  for (const auto& s : {test::sample(), test::hostile_sample()}) {
    std::istringstream in{made(plan_text(s), "truck-sheet.txt")};
    std::string squeezed;
    for (std::string line; std::getline(in, line);) {
      const auto width = std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; });
      INFO(line);
      CHECK(width <= 60);
      std::erase(line, ' ');
      squeezed += line;
    }
    std::string name = s.problem.farm.fields[0].name;
    std::erase_if(name, [](char c) { return c == ' ' || c == '\n'; });
    CHECK(squeezed.find(name) != std::string::npos);
  }
}

TEST_CASE("days beyond the forecast are weeks, days inside it are days", "[identity]") {
  auto s = test::sample();
  const plan::Job& job = s.planned.plan.fields[1].jobs.front();
  const std::string day = iso(s.problem.farm.season.date(job.first.p50));
  const std::string far = made(plan_text(s), "field-sheets.html");
  CHECK(far.find("etween the weeks of") != std::string::npos);
  CHECK(far.find("No forecast") != std::string::npos);
  s.planned.plan.forecast_until = s.problem.farm.season.date(272);
  const std::string near = made(plan_text(s), "field-sheets.html");
  CHECK(near.find("etween the weeks of") == std::string::npos);
  CHECK(near.find("Forecast until") != std::string::npos);
}

TEST_CASE("no text of an export joins a burn with a granting word", "[regression]") {
  static const std::regex granting{
      R"(\b(allow\w*|permitted|permits|permitting|approv\w*|cleared|legal\w*|ok|okay|safe\w*|may|granted|)"
      R"(authori[sz]ed|permitid[oa]s?|permite\w*|autoriz\w*|aprobad[oa]s?|segur[oa]s?|puede\w*|vale)\b)",
      std::regex::icase};
  static const std::regex tag{"<[^>]*>"}, month{R"(\d May\b)"};
  const std::string plan = plan_text(test::sample());
  for (const std::string& name : report::export_names())
    for (const ExportOptions& o : all_options()) {
      if (name == "work.xlsx") continue;
      std::string text = made(plan, name, o);
      text = text.substr(
          std::min(text.find("<body>"), text.size() - 1) == text.size() - 1 ? 0 : text.find("<body>"));
      std::istringstream in{std::regex_replace(std::regex_replace(text, tag, "\n"), month, "")};
      for (std::string line; std::getline(in, line, '.');) {
        std::string low = line;
        std::transform(low.begin(), low.end(), low.begin(),
                       [](char c) { return static_cast<char>(std::tolower(c)); });
        if (low.find("burn") == std::string::npos && low.find("quema") == std::string::npos) continue;
        INFO(name << ": " << line);
        CHECK_FALSE(std::regex_search(line, granting));
      }
    }
}

TEST_CASE("an unknown export and a broken plan give issues", "[regression]") {
  const std::string good = plan_text(test::sample());
  const auto issues_of = [](const std::string& text, const char* name = "truck-sheet.txt") {
    return report::export_of(text, name, {}).issues();
  };
  CHECK(issues_of(good).empty());
  CHECK(issues_of(good, "work.pdf").size() == 1);
  struct Broken {
    const char* what;
    std::function<void(json&)> make;
    const char* place;
  };
  const std::vector<Broken> rows{
      {"no jobs", [](json& p) { p["fields"][2].erase("jobs"); }, "fields[2]"},
      {"a day that does not exist", [](json& p) { p["farm"]["as_of"] = "2026-02-30"; }, "farm.as_of"},
      {"a text for a number", [](json& p) { p["fields"][0]["area_ha"] = "much"; }, "fields[0].area_ha"},
      {"another schema", [](json& p) { p["schema"] = "aftercut-plan-0"; }, "schema"},
      {"a field twice", [](json& p) { p["fields"].push_back(p["fields"][0]); }, "fields[9].id"}};
  for (const Broken& row : rows) {
    json plan = json::parse(good);
    row.make(plan);
    const Issues issues = issues_of(plan.dump());
    INFO(row.what);
    for (const Issue& i : issues) UNSCOPED_INFO(to_text(i));
    CHECK(std::ranges::any_of(issues, [&](const Issue& i) { return i.place == row.place; }));
    for (const Issue& i : issues)
      CHECK_FALSE((i.file.empty() || i.found.empty() || i.expected.empty() || i.fix.empty()));
  }
  for (const char* text : {"", "{", "[]", "null", "{}", "\"plan\""}) {
    INFO(text);
    CHECK_FALSE(issues_of(text).empty());
  }
  json two = json::parse(good);
  two["fields"][0].erase("straw");
  two["farm"].erase("units");
  CHECK(issues_of(two.dump()).size() >= 2);
}

}  // namespace aftercut
