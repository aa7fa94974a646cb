// Faults of a book: each is found, with its place, and all of them at once.
#include <algorithm>

#include "aftercut/method/recipe.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::method;

namespace {

const std::string operations = R"("operations": [
  {"id": "disk", "implement": "disk", "when": {"workable": true}, "effect": {"straw": {"bury": 0.5}}},
  {"id": "boards_in", "tractor": false, "water": "boards_in"}, {"id": "fill", "tractor": false, "crew": 0, "water": "fill"},
  {"id": "boards_out", "tractor": false, "water": "boards_out"},
  {"id": "burn", "implement": "torch", "tractor": false, "burning": true, "effect": {"burn_share_flat": 0.7}},
  {"id": "bale", "implement": "baler", "effect": {"bale_share": 0.7}}])";
const std::string chain = R"("spring_chain": [{"operation": "disk"}])";

/// A book with one method whose members follow the id.
Result<Book> with_method(const std::string& members) {
  return read_book(
      "{" + operations + "," + chain + R"(, "methods": [{"id": "m", "summary": "s",)" + members + "}]}",
      "own.json");
}

/// A book whose only operation has these members.
Result<Book> with_operation(const std::string& members) {
  return read_book(R"({"operations": [{"id": "x",)" + members + R"(}], "spring_chain": [{"operation": "x"}],
    "methods": [{"id": "m", "summary": "s", "takes": ["spread"]}]})",
                   "own.json");
}

bool at(const Issues& issues, const std::string& place) {
  for (const Issue& issue : issues) UNSCOPED_INFO(to_text(issue));
  return std::any_of(issues.begin(), issues.end(), [&](const Issue& i) {
    return i.place == place && i.file == "own.json" && !i.fix.empty();
  });
}

}  // namespace

TEST_CASE("a small book reads with its defaults", "[identity]") {
  const auto book = with_method(R"("takes": ["spread"], "steps": [{"operation": "disk"}])");
  REQUIRE(book.ok());
  const Recipe& r = book.value().recipes.front();
  CHECK(r.name == "m");
  CHECK(r.harvest.cut_height_cm == 30.0);
  CHECK(r.steps.size() == 2);
  CHECK(r.steps[0].season == Season::autumn);
  CHECK(r.steps[1].season == Season::spring);
  CHECK_FALSE(r.steps[0].give_up);
  CHECK(book.value().operations.front().crew == 1);
  CHECK(book.value().operations.front().when.can_drive);
  CHECK_FALSE(book.value().operations.front().when.not_too_dry);
}

TEST_CASE("faults of an operation", "[identity]") {
  CHECK(with_operation(R"("implement": "disk")").ok());
  CHECK(at(with_operation(R"("implement": "disk", "effect": {"straw": {"bury": 1.2}})").issues(),
           "operations[0].effect.straw.bury"));
  CHECK(at(with_operation(R"("implement": "disk", "effect": {"bale_share": -0.1})").issues(),
           "operations[0].effect.bale_share"));
  CHECK(at(with_operation(R"("implement": "spaceship")").issues(), "operations[0].implement"));
  CHECK(at(with_operation(R"("crew": 5, "implement": "disk")").issues(), "operations[0].crew"));
  CHECK(at(with_operation(R"("crew": 1.5, "implement": "disk")").issues(), "operations[0].crew"));
  CHECK(at(with_operation(R"("crew": 0, "implement": "disk")").issues(), "operations[0].crew"));
  CHECK(at(with_operation(R"("implement": "disk", "load": "huge")").issues(), "operations[0].load"));
  CHECK(at(with_operation(R"("implement": "disk", "tilage": true)").issues(), "operations[0].tilage"));
  CHECK(at(with_operation(R"("implement": "disk", "tillage": "yes")").issues(), "operations[0].tillage"));
  CHECK(at(with_operation(R"("implement": "disk", "effect": {"burn_share_flat": 0.5})").issues(),
           "operations[0].burning"));
  CHECK(at(with_operation(R"("implement": "disk", "when": {"least_ponded_mm": 90, "most_ponded_mm": 20})")
               .issues(),
           "operations[0].when.least_ponded_mm"));
  CHECK(at(with_operation(R"("implement": "plane", "when": {"not_too_dry": true, "least_ponded_mm": 20})")
               .issues(),
           "operations[0].when.not_too_dry"));
  CHECK(at(with_operation(R"("name": "walk")").issues(), "operations[0].implement"));
}

TEST_CASE("faults of a method's steps", "[identity]") {
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{"operation": "mow"}])").issues(),
           "methods[0].steps[0].operation"));
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{}])").issues(), "methods[0].steps[0].operation"));
  CHECK(
      at(with_method(R"("takes": ["spread"], "steps": [{"operation": "disk", "give_up": "02-30"}])").issues(),
         "methods[0].steps[0].give_up"));
  CHECK(
      at(with_method(R"("takes": ["spread"], "steps": [{"operation": "disk", "season": "summer"}])").issues(),
         "methods[0].steps[0].season"));
  CHECK(at(
      with_method(R"("takes": ["spread"], "steps": [{"operation": "disk", "least_lag_days": -1}])").issues(),
      "methods[0].steps[0].least_lag_days"));
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{"operation": "disk"},
      {"operation": "disk", "least_lag_days": 5, "most_lag_days": 2}])")
               .issues(),
           "methods[0].steps[1].most_lag_days"));
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{"operation": "disk", "passes": [
      {"above_kg_per_ha": 3000, "passes": 2}, {"above_kg_per_ha": 2000, "passes": 3}]}])")
               .issues(),
           "methods[0].steps[0].passes[1].above_kg_per_ha"));
  CHECK(at(
      with_method(
          R"("takes": ["spread"], "steps": [{"operation": "disk", "season": "winter"}, {"operation": "disk"}])")
          .issues(),
      "methods[m].steps"));
  CHECK(
      at(with_method(R"("takes": ["spread"], "steps": [{"operation": "disk", "most_lag_days": 3}])").issues(),
         "methods[m].steps[0].most_lag_days"));
  CHECK(at(with_method(R"("takes": ["spread"], "spring": [])").issues(), "methods[m]"));
}

TEST_CASE("faults of a method's lay, water and fall-back", "[identity]") {
  CHECK(at(with_method(R"("takes": ["heaped"])").issues(), "methods[0].takes"));
  CHECK(at(with_method(R"("takes": [])").issues(), "methods[0].takes"));
  CHECK(at(with_method(R"("takes": ["windrow"])").issues(),
           "methods[0].takes"));  // the harvest setting is spread
  CHECK(at(with_method(R"("takes": ["spread", "chopped"], "steps": [{"operation": "bale"}])").issues(),
           "methods[m].takes"));
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{"operation": "fill"}])").issues(),
           "methods[m].water"));
  CHECK(at(with_method(R"("takes": ["spread"], "water": {"board_mm": 100})").issues(), "methods[m].steps"));
  CHECK(at(with_method(R"("takes": ["spread"], "water": {"board_mm": 100, "target_mm": 120})").issues(),
           "methods[0].water.target_mm"));
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{"operation": "burn"}])").issues(),
           "methods[m].fall_back"));
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{"operation": "bale"}],
      "fall_back": {"trigger": "t", "method": "nowhere", "start_by": "11-01"})")
               .issues(),
           "methods[m].fall_back.method"));
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{"operation": "bale"}],
      "fall_back": {"trigger": "t", "method": "m", "start_by": "11-01"})")
               .issues(),
           "methods[m].fall_back.method"));
  CHECK(at(with_method(R"("takes": ["spread"], "steps": [{"operation": "bale"}],
      "fall_back": {"trigger": "t", "method": "m"})")
               .issues(),
           "methods[0].fall_back.start_by"));
}

TEST_CASE("ids stand once in a file", "[identity]") {
  const std::string twice = R"({"id": "m", "summary": "s", "takes": ["spread"]})";
  CHECK(at(
      read_book("{" + operations + "," + chain + R"(, "methods": [)" + twice + "," + twice + "]}", "own.json")
          .issues(),
      "methods[1].id"));
}

TEST_CASE("a text that is no book", "[identity]") {
  CHECK(read_book("", "own.json").issues().size() == 1);
  CHECK(read_book("{", "own.json").issues().front().file == "own.json");
  CHECK_FALSE(read_book("[]", "own.json").ok());
  CHECK(at(read_book("{}", "own.json").issues(), "operations"));
  CHECK(at(read_book("{" + operations + "," + chain + "}", "own.json").issues(), "methods"));
  CHECK(at(read_book("{" + operations + R"(, "methods": 3})", "own.json").issues(), "methods"));
  CHECK(at(read_book("{" + operations + R"(, "recipes": []})", "own.json").issues(), "recipes"));
}

TEST_CASE("all issues are named at once", "[identity]") {
  const auto book =
      with_operation(R"("implement": "spaceship", "crew": 9, "effect": {"bale_share": 2}, "colour": "red")");
  CHECK(book.issues().size() == 4);
}

TEST_CASE("a number beyond a double, a value nested too deep and a key twice are issues of the text",
          "[regression]") {
  const std::string deep = std::string(100000, '[') + std::string(100000, ']');
  CHECK(at(read_book(R"({"methods": [1e999]})", "own.json").issues(), "line 1, column 14"));
  CHECK(read_book("{\"methods\": " + deep + "}", "own.json").issues().size() == 1);
  CHECK(at(read_book(R"({"": 1})", "own.json").issues(), "whole file"));
  CHECK(at(read_book("3", "own.json").issues(), "whole file"));
  CHECK(at(read_book(R"({"methods": [], "methods": []})", "own.json").issues(), "methods"));
}
