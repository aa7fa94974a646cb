// A jurisdiction's file: read whole, or every fault named.
#include <algorithm>

#include "aftercut/burn/rules.hpp"
#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::burn;

namespace {

std::string file_with(const std::string& rows) {
  return R"({"jurisdiction": "Invented Valley", "authority": "the air office",
    "burn_day_chance": {"value": 0.3, "source": "own count"}, "rules": [)" +
         rows + "]}";
}

/// A good row with one member put in or changed.
std::string row(const std::string& key = "", const std::string& value = "") {
  const std::vector<std::pair<std::string, std::string>> good{
      {"name", "\"rain_reset\""},  {"value", "\"0.15\""},  {"unit", "\"inch\""},
      {"comparison", "\">\""},     {"weight", "\"rule\""}, {"source", "\"page 3\""},
      {"as_of", "\"2026-08-01\""}, {"checked", "true"}};
  std::string text;
  bool put = key.empty();
  for (const auto& [name, usual] : good) {
    const bool here = name == key;
    put = put || here;
    if (here && value.empty()) continue;
    text += (text.empty() ? "{\"" : ", \"") + name + "\": " + (here ? value : usual);
  }
  if (!put) text += ", \"" + key + "\": " + value;
  return text + "}";
}

bool at(const Result<Jurisdiction>& read, const std::string& place) {
  const Issues issues = read.issues();
  for (const Issue& issue : issues) UNSCOPED_INFO(to_text(issue));
  return std::any_of(issues.begin(), issues.end(), [&](const Issue& i) {
    return i.place == place && i.file == "rules.json" && !i.fix.empty() && !i.expected.empty();
  });
}

Result<Jurisdiction> read(const std::string& text) { return read_jurisdiction(text, "rules.json"); }

}  // namespace

TEST_CASE("a good file reads as written", "[identity]") {
  const auto j = read(file_with(row()));
  REQUIRE(j.ok());
  CHECK(j.value().name == "Invented Valley");
  CHECK(j.value().authority == "the air office");
  CHECK(j.value().burn_day_chance == 0.3);
  REQUIRE(j.value().rules.size() == 1);
  const Rule& rule = j.value().rules.front();
  CHECK(rule.value == "0.15");
  CHECK(rule.unit == "inch");
  CHECK(rule.as_of == make_date(2026, 8, 1));
  CHECK(rule.checked);
}

TEST_CASE("plain numbers and none are values too", "[identity]") {
  CHECK(read(file_with(row("value", "0.15"))).value().rules.front().value == "0.15");
  CHECK(read(file_with(row("value", "\"none\""))).ok());
  CHECK(read(file_with(row("checked"))).value().rules.front().checked == false);
  CHECK_FALSE(read(file_with(row("as_of"))).value().rules.front().as_of);
}

TEST_CASE("faults of a row are named with their place", "[identity]") {
  CHECK(at(read(file_with(row("name", "\"rain\""))), "rules[0].name"));
  CHECK(at(read(file_with(row("name"))), "rules[0].name"));
  CHECK(at(read(file_with(row("value", "\"a shower\""))), "rules[0].value"));
  CHECK(at(read(file_with(row("value", "\"-1\""))), "rules[0].value"));
  CHECK(at(read(file_with(row("value", "\"3.81mm\""))), "rules[0].value"));
  CHECK(at(read(file_with(row("value", "\"nan\""))), "rules[0].value"));
  CHECK(at(read(file_with(row("unit", "\"cm\""))), "rules[0].unit"));
  CHECK(at(read(file_with(row("unit"))), "rules[0].unit"));
  CHECK(at(read(file_with(row("comparison", "\">=\""))), "rules[0].comparison"));
  CHECK(at(read(file_with(row("weight", "\"rumour\""))), "rules[0].weight"));
  CHECK(at(read(file_with(row("source"))), "rules[0].source"));
  CHECK(at(read(file_with(row("as_of", "\"2026-02-30\""))), "rules[0].as_of"));
  CHECK(at(read(file_with(row("checked", "\"yes\""))), "rules[0].checked"));
  CHECK(at(read(file_with(row("colour", "\"red\""))), "rules[0].colour"));
  CHECK(at(read(file_with(row() + "," + row())), "rules[1].name"));
  CHECK(at(read(file_with("7")), "rules[0]."));
}

TEST_CASE("values that do not fit their row", "[identity]") {
  const auto other = [](const std::string& name, const std::string& value, const std::string& unit,
                        const std::string& cmp) {
    return read(file_with(R"({"name": ")" + name + R"(", "value": ")" + value + R"(", "unit": ")" + unit +
                          R"(", "comparison": ")" + cmp + R"(", "weight": "law", "source": "s"})"));
  };
  CHECK(other("season_share", "0.25", "share", "<=").ok());
  CHECK(at(other("season_share", "1.2", "share", "<="), "rules[0].value"));
  CHECK(other("season_share", "25", "percent", "<=").ok());
  CHECK(at(other("season_share", "250", "percent", "<="), "rules[0].value"));
  CHECK(at(other("dry_days_spread", "2.5", "day", ">="), "rules[0].value"));
  CHECK(at(other("autumn_from", "09-31", "month-day", ">="), "rules[0].value"));
  CHECK(other("start_from", "09:30", "clock", ">=").ok());
  CHECK(at(other("start_from", "9:30", "clock", ">="), "rules[0].value"));
  CHECK(at(other("start_from", "25:00", "clock", ">="), "rules[0].value"));
  CHECK(at(other("disease_finding", "perhaps", "yes/no", "="), "rules[0].value"));
}

TEST_CASE("faults of the file", "[identity]") {
  CHECK(read("{").issues().size() == 1);
  CHECK_FALSE(read("[]").ok());
  const auto empty = read("{}");
  CHECK(at(empty, "jurisdiction"));
  CHECK(at(empty, "authority"));
  CHECK(at(empty, "burn_day_chance.value"));
  CHECK(at(empty, "rules"));
  CHECK(at(
      read(
          R"({"jurisdiction": "a", "authority": "b", "burn_day_chance": {"value": 1.5, "source": "s"}, "rules": []})"),
      "burn_day_chance.value"));
  CHECK(at(read(R"({"jurisdiction": "a", "authority": "b", "burn_day_chance": {"value": 0.5}, "rules": []})"),
           "burn_day_chance.source"));
  CHECK(
      at(read(R"({"jurisdiction": "a", "autority": "b", "burn_day_chance": 0.5, "rules": []})"), "autority"));
}

TEST_CASE("a number beyond a double, a value nested too deep, a key twice, no object: one issue each",
          "[regression]") {
  const std::string deep = std::string(100000, '[') + std::string(100000, ']');
  for (
      const std::string& text :
      {std::string{R"({"burn_day_chance": {"value": 1e999}})"}, "{\"rules\": [" + deep + "]}",
       std::string{R"({"authority": "a", "authority": "b"})"}, std::string{"[]"},
       std::string{
           R"({"jurisdiction": "a", "authority": "b", "burn_day_chance": {"value": 0.5, "source": "s"}, "rules": [], "": 1})"}}) {
    INFO(text.substr(0, 60));
    const Issues issues = read(text).issues();
    REQUIRE(issues.size() == 1);
    CHECK_FALSE(issues[0].place.empty());
    CHECK_FALSE(issues[0].fix.empty());
  }
}

TEST_CASE("the page of burn rules lists every row name", "[identity]") {
  const auto page = read_file(std::string{AFTERCUT_SOURCE_DIR} + "/docs/burn-rules.md");
  REQUIRE(page.ok());
  for (const std::string& name : known_rule_names()) {
    CAPTURE(name);
    CHECK(page.value().find("`" + name + "`") != std::string::npos);
  }
}
