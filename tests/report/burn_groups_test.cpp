// Rows told once for many fields: nothing is lost, nothing is told of the wrong field.
#include "burn_groups.hpp"

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "aftercut/report/burn.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

using namespace aftercut;
using namespace aftercut::report;

namespace {

burn::RowWords words_in(const char* name, const char* quote, const char* why,
                        const char* source = "source \"s\"") {
  return {name, quote, source, why};
}

/// Lines joined again where they were wrapped: a line that starts with four blanks goes on from the one
/// before.
std::vector<std::string> unwrapped(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("    ") && !lines.empty())
      lines.back() += line.substr(3);
    else
      lines.push_back(line);
  }
  return lines;
}

std::vector<std::string> split(const std::string& list) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < list.size();) {
    const std::size_t end = std::min(list.find(", ", at), list.size());
    out.push_back(list.substr(at, end - at));
    at = end + 2;
  }
  return out;
}

/// The ids that "[...]" stands for among the fields of its group.
std::set<std::string> ids_meant(const std::string& inside, const std::set<std::string>& group) {
  if (inside == "all") return group;
  const bool but = inside.starts_with("all but ");
  const std::vector<std::string> named = split(but ? inside.substr(8) : inside);
  std::set<std::string> ids{named.begin(), named.end()};
  if (!but) return ids;
  std::set<std::string> rest;
  std::set_difference(group.begin(), group.end(), ids.begin(), ids.end(), std::inserter(rest, rest.end()));
  return rest;
}

/// [field id] "name: quote; why" as the text tells them, the common source taken off.
std::map<std::string, std::multiset<std::string>> told(
    const std::string& text, const std::map<std::string, std::set<std::string>>& groups) {
  std::map<std::string, std::multiset<std::string>> out;
  std::set<std::string> group;
  static const std::regex heading{R"(^(.+), (field .+|\d+ fields):$)"},
      reason{R"((?:; ([^\[]*?))? \[([^\]]*)\])"};
  for (const std::string& line : unwrapped(text)) {
    std::smatch m;
    if (std::regex_match(line, m, heading)) {
      group = groups.at(m[1].str());
      continue;
    }
    if (!line.starts_with("  - ")) continue;
    const std::size_t colon = line.find(": "), quoted = line.find('"', line.find('"', colon) + 1) + 1;
    const std::string rest = line.substr(quoted);
    for (const std::string& name : split(line.substr(4, colon - 4)))
      for (std::sregex_iterator r{rest.begin(), rest.end(), reason}, end; r != end; ++r)
        for (const std::string& id : ids_meant((*r)[2].str(), group))
          out[id].insert(name + ": " + line.substr(colon + 2, quoted - colon - 2) + "; " + (*r)[1].str());
  }
  return out;
}

}  // namespace

TEST_CASE("a row that all fields have is told once", "[identity]") {
  const auto rows =
      shared_rows({{0, {words_in("wind", "row \"3\"", "")}}, {1, {words_in("wind", "row \"3\"", "")}}});
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].names == std::vector<std::string>{"wind"});
  CHECK(rows[0].reasons == std::vector<SharedReason>{{"", {0, 1}}});
}

TEST_CASE("what differs by field stands beside the row", "[identity]") {
  const auto rows = shared_rows({{0, {words_in("home", "row \"150\"", "found 99")}},
                                 {1, {words_in("home", "row \"150\"", "found 129")}},
                                 {2, {words_in("home", "row \"150\"", "found 99")}}});
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].reasons == std::vector<SharedReason>{{"found 99", {0, 2}}, {"found 129", {1}}});
}

TEST_CASE("rows of other words, sources or fields stay apart; names with all the same are joined",
          "[identity]") {
  const auto rows =
      shared_rows({{0,
                    {words_in("a", "row \"no limit\"", ""), words_in("b", "row \"no limit\"", ""),
                     words_in("c", "row \"no limit\"", "", "source \"other\""),
                     words_in("d", "row \"no limit\"", "old")}},
                   {1, {words_in("a", "row \"no limit\"", ""), words_in("b", "row \"no limit\"", "")}},
                   {2, {words_in("e", "row \"no limit\"", "")}}});
  REQUIRE(rows.size() == 4);
  CHECK(rows[0].names == std::vector<std::string>{"a", "b"});
  CHECK(rows[1].names == std::vector<std::string>{"c"});
  CHECK(rows[2].names == std::vector<std::string>{"d"});
  CHECK(rows[3].names == std::vector<std::string>{"e"});
}

TEST_CASE("the source that most rows share", "[identity]") {
  const auto from = [](const char* name, const char* source) {
    return RowsOf{0, {words_in(name, name, "", source)}};
  };
  CHECK(common_source(shared_rows({from("a", "s"), from("b", "s"), from("c", "t")})) == "s");
  CHECK(common_source(shared_rows({from("a", "s"), from("b", "t")})).empty());
  CHECK(common_source(shared_rows({from("a", "s")})).empty());
  CHECK(common_source(shared_rows({from("a", ""), from("b", ""), from("c", "s")})).empty());
}

TEST_CASE("the text tells every row of every field, and each field's standing in one line", "[cross]") {
  test::Sample sample = test::sample();
  farm::Farm& farm = sample.problem.farm;
  farm.burning = burn::Jurisdiction{"Invented district", "the district air office", {}, 0.35};
  farm.burning->rules = burn::rows_without_limit(
      burn::known_rule_names(), {"", "", "", "", "rule", "invented", make_date(2026, 8, 1), true});
  const auto put = [&](const std::string& name, const char* value, const char* unit, const char* source) {
    for (burn::Rule& r : farm.burning->rules)
      if (r.name == name) r.value = value, r.unit = unit, r.source = source;
  };
  put("least_people", "3", "people", "invented");
  put("firebreak", "4", "m", "another leaf");
  put("setback_home", "5000", "m", "invented");
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    farm.fields[f].burn.people = f % 4 == 3 ? std::optional<int>{} : static_cast<int>(f % 4) + 1;
    farm.fields[f].burn.firebreak_m = f % 4 == 1 ? 3.0 : 5.0;
  }
  farm.fields[2].burn_answer = "Not before Thursday.";
  std::set<std::string> standings;
  for (const bool near : {true, false}) {
    if (!near) put("setback_home", "none", "", "invented");
    std::vector<season::BurnStanding> all;
    std::map<std::string, std::multiset<std::string>> expected;
    std::map<std::string, std::set<std::string>> groups;
    for (std::size_t f = 0; f + 1 < farm.fields.size(); ++f) {  // the last has no outline
      all.push_back(season::burn_standing(sample.problem, f, make_date(2026, 10, 20)));
      const std::string id = farm.fields[f].id.value;
      groups[burn::to_text(all.back().finding.standing, *farm.burning)].insert(id);
      for (const burn::RowWords& r : all.back().finding.rows)
        expected[id].insert(r.name + ": " + r.quote + "; " + r.why);
    }
    const std::string text = burn_text(farm, all);
    INFO(text);
    // Groups of one field name no field beside their rows: they are looked at by their count alone.
    auto found = told(text, groups);
    for (const auto& [standing, ids] : groups)
      for (const std::string& id : ids) {
        CAPTURE(id, standing);
        standings.insert(standing);
        if (ids.size() > 1) CHECK(found[id] == expected[id]);
        const std::regex line{"(^|\n)" + id + " +[^\n]*  " + standing + "\n"};
        CHECK(std::distance(std::sregex_iterator{text.begin(), text.end(), line}, std::sregex_iterator{}) ==
              1);
      }
    CHECK(text.find("source \"another leaf\"") != std::string::npos);
  }
  CHECK(standings.size() == 4);
}
