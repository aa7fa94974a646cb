// What is said, and what is never said.

#include <nlohmann/json.hpp>
#include <regex>

#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"
#include "terminal.hpp"

namespace aftercut {
namespace {

using test::longest_line;

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// Sentences that join a burn with a word that grants it. "May" with a capital is the month.
std::vector<std::string> grants(const std::string& text) {
  static const std::regex sentence{"[^.;!?\\n\"<>{}]+"};
  static const std::regex burn{"burn", std::regex::icase};
  static const std::regex grant{
      "\\b([Aa]llow(s|ed|ance)?|[Pp]ermit(s|ted)?|[Aa]pprove[sd]?|[Cc]lear(s|ed)?|[Ll]egal(ly)?|OK|[Ss]afe("
      "ly)?|may|[Aa]uthori[sz]ed)\\b"};
  std::vector<std::string> found;
  for (std::sregex_iterator at{text.begin(), text.end(), sentence}, end; at != end; ++at) {
    const std::string s = at->str();
    if (std::regex_search(s, burn) && std::regex_search(s, grant)) found.push_back(s);
  }
  return found;
}

TEST_CASE("The summary fits 100 columns in both unit systems and names every field", "[golden]") {
  for (const auto units : {farm::UnitSystem::us, farm::UnitSystem::si}) {
    const auto s = test::sample(units);
    const std::string text = report::summary_text(s.problem, s.planned, s.audit);
    CHECK(longest_line(text) <= 100);
    for (const auto& f : s.problem.farm.fields) CHECK(says(text, f.id.value + " " + f.name.substr(0, 8)));
    CHECK(says(text, units == farm::UnitSystem::us ? "lb/ac" : "kg/ha"));
    CHECK(says(text, "every method is barred"));
    CHECK(says(text, "15 of 30 weather years"));
  }
}

TEST_CASE("The summary tells what a tenth more is worth where it can be told, most first", "[golden]") {
  auto s = test::sample(farm::UnitSystem::us);
  const std::string text =
      std::regex_replace(report::summary_text(s.problem, s.planned, s.audit), std::regex{"\\s+"}, " ");
  INFO(text);
  CHECK(says(text, "1,830 USD a year (± 210) for 240 h"));
  CHECK(says(text, "most in the week of"));
  CHECK(says(text, "burn area of the season: 610 USD a year (± 40) for 31 ac"));
  CHECK(text.find("1,830") < text.find("610 USD a year"));
  CHECK_FALSE(says(text, "-12"));
  for (plan::MoreOf& of : s.planned.plan.one_more->things) of.worth = 0.5;
  CHECK(says(report::summary_text(s.problem, s.planned, s.audit),
             "A tenth more hours of any machine or person"));
  s.planned.plan.one_more.reset();
  CHECK_FALSE(says(report::summary_text(s.problem, s.planned, s.audit), "A tenth more"));
}

TEST_CASE("The summary tells how many fields have their wish, and what stands in the way of others",
          "[golden]") {
  auto s = test::sample();
  const std::string text = report::summary_text(s.problem, s.planned, s.audit);
  CHECK(text.find("Wanted chance: ") != std::string::npos);
  CHECK(text.find("in the 15 years searched") != std::string::npos);
  CHECK(text.find("What stands in the way") != std::string::npos);
  CHECK(text.find("It takes a second tractor") != std::string::npos);
  s.problem.farm.target.risk = farm::Risk::price;
  CHECK(report::summary_text(s.problem, s.planned, s.audit).find("Wanted chance: ") == std::string::npos);
}

TEST_CASE("The comparison fits 100 columns and gives the reasons in words", "[golden]") {
  const auto s = test::sample();
  const std::string all = report::compare_text(s.problem, s.planned, plan::none);
  CHECK(longest_line(all) <= 100);
  const std::string one = report::compare_text(s.problem, s.planned, 3);
  CHECK(says(one, "no baler can come in its window"));
  CHECK(says(one, "> flood, then roll"));
  CHECK_FALSE(says(one, "Home check"));
  CHECK(says(all, one));
}

TEST_CASE("A field's methods as plain lines for a message, in either unit system", "[golden]") {
  for (const auto units : {farm::UnitSystem::us, farm::UnitSystem::si}) {
    const auto s = test::sample(units);
    const std::string text = report::compare_message(s.problem, s.planned, 3);
    CHECK(says(text, "- flood, then roll (in the plan): "));
    CHECK(says(text, "no baler can come in its window"));
    CHECK(says(text, units == farm::UnitSystem::us ? "USD/ac" : "USD/ha"));
    CHECK(says(text, units == farm::UnitSystem::us ? "lb/ac of straw left" : "kg/ha of straw left"));
    CHECK_FALSE(says(text, "  "));  // no columns
    std::size_t lines = 0;
    for (const char c : text) lines += c == '\n' ? 1 : 0;
    CHECK(lines == 1 + s.planned.plan.fields[3].methods.size());
  }
}

TEST_CASE("Hours stand beside those at table field efficiency", "[golden]") {
  auto s = test::sample();
  for (auto& m : s.planned.plan.fields[3].methods) m.machine_h = 71.25, m.machine_h_typical = 66.04;
  CHECK(says(report::compare_text(s.problem, s.planned, 3), " 71.2 (66.0) "));
}

TEST_CASE("Chances are said in years out of ten", "[identity]") {
  auto s = test::sample();
  const auto said = [&](double chance) {
    for (auto& m : s.planned.plan.fields[1].methods) m.chance_ready = chance;
    return report::compare_text(s.problem, s.planned, 1);
  };
  CHECK(says(said(0.9), "9 years in 10"));
  CHECK(says(said(1.0), "every year"));
  CHECK(says(said(0.0), "no year"));
  CHECK(says(said(0.97), "9 years in 10"));
  CHECK(says(said(0.799), "7 years in 10"));
  CHECK(says(said(0.8), "8 years in 10"));
  CHECK(says(said(0.15), "1 year in 10"));
  CHECK(says(said(0.03), "under 1 in 10"));
}

TEST_CASE("A failed audit is said with its first fault", "[identity]") {
  auto s = test::sample();
  s.audit.count = 2;
  s.audit.violations = {{"double-booked machine", "2005-10-03 disk", "two fields", "one field"}};
  const std::string text = report::summary_text(s.problem, s.planned, s.audit);
  CHECK(says(text, "2 faults"));
  CHECK(says(text, "double-booked machine"));
  CHECK_FALSE(says(text, "nothing wrong"));
}

TEST_CASE("No sentence joins a burn with a granting word", "[identity]") {
  CHECK(grants("You may burn field 3.").size() == 1);
  CHECK(grants("Burning is allowed. Ask.").size() == 1);
  CHECK(grants("Last burn day: 15 May.").empty());
  const auto s = test::sample();
  const std::string plan = report::plan_json(s.problem, s.planned, s.audit);
  std::vector<std::string> found;
  const auto look = [&](const std::string& text) {
    for (const auto& sentence : grants(text)) found.push_back(sentence);
  };
  look(plan);
  look(report::work_csv(s.problem, s.planned));
  look(report::summary_text(s.problem, s.planned, s.audit));
  look(report::compare_text(s.problem, s.planned, plan::none));
  CHECK(found == std::vector<std::string>{});
}

}  // namespace
}  // namespace aftercut
