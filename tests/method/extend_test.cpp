// Own methods beside the built-in ones.
#include <algorithm>

#include "aftercut/method/recipe.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::method;

namespace {

std::size_t index_of(const Book& book, const std::string& id) {
  const auto at = std::find_if(book.recipes.begin(), book.recipes.end(),
                               [&](const Recipe& r) { return r.id.value == id; });
  REQUIRE(at != book.recipes.end());
  return static_cast<std::size_t>(at - book.recipes.begin());
}

}  // namespace

TEST_CASE("a new method is added and ends with the chain of the book", "[identity]") {
  const auto book =
      extend(builtin_book(), R"({"methods": [{"id": "disk_twice", "summary": "Disk, and disk again.",
    "takes": ["spread"], "steps": [{"operation": "disk"}, {"operation": "disk", "least_lag_days": 3}]}]})",
             "own");
  REQUIRE(book.ok());
  CHECK(book.value().recipes.size() == builtin_book().recipes.size() + 1);
  const Recipe& own = book.value().recipes.back();
  CHECK(own.name == "disk_twice");
  CHECK(own.steps.size() == 2 + builtin_book().spring_chain.size());
  CHECK(own.steps[1].least_lag_days == 3);
}

TEST_CASE("a method by the same id is replaced where it stood", "[identity]") {
  const auto book =
      extend(builtin_book(), R"({"methods": [{"id": "chop_disk", "summary": "Only chop.", "takes": ["spread"],
    "steps": [{"operation": "chop"}]}]})",
             "own");
  REQUIRE(book.ok());
  CHECK(book.value().recipes.size() == builtin_book().recipes.size());
  const std::size_t at = index_of(book.value(), "chop_disk");
  CHECK(at == index_of(builtin_book(), "chop_disk"));
  CHECK(book.value().recipes[at].summary == "Only chop.");
  CHECK(book.value().recipes[at].steps.size() == 1 + builtin_book().spring_chain.size());
}

TEST_CASE("an operation by the same id is replaced in every method", "[identity]") {
  const auto book =
      extend(builtin_book(), R"({"operations": [{"id": "disk", "implement": "disk", "tillage": true,
    "when": {"workable": true, "most_rain_mm": 5.0}, "effect": {"straw": {"bury": 0.6}}}]})",
             "own");
  REQUIRE(book.ok());
  CHECK(book.value().operations.size() == builtin_book().operations.size());
  const Recipe& r = book.value().recipes[index_of(book.value(), "chop_disk")];
  CHECK(book.value().operations[static_cast<std::size_t>(r.steps[2].operation)].when.most_rain_mm == 5.0);
}

TEST_CASE("a new spring chain ends every method that ended with the old one", "[identity]") {
  const auto book = extend(builtin_book(),
                           R"({"spring_chain": [{"operation": "disk_spring", "earliest": "03-10"}]})", "own");
  REQUIRE(book.ok());
  for (std::size_t i = 0; i < book.value().recipes.size(); ++i) {
    const auto& steps = book.value().recipes[i].steps;
    CHECK(steps.size() == builtin_book().recipes[i].steps.size() - builtin_book().spring_chain.size() + 1);
    CHECK(steps.back().earliest == MonthDay{3, 10});
    CHECK(steps.back().season == Season::spring);
  }
}

TEST_CASE("an operation that becomes a burn makes its methods burn, and asks for their fall-back",
          "[regression]") {
  const auto book =
      extend(builtin_book(), R"({"operations": [{"id": "chop", "implement": "torch", "tractor": false,
    "burning": true, "effect": {"burn_share_flat": 0.5}}]})",
             "own");
  REQUIRE_FALSE(book.ok());
  const auto issues = book.issues();
  CHECK(std::any_of(issues.begin(), issues.end(), [](const Issue& i) {
    return i.place == "methods[chop_disk].fall_back" && i.file == "own";
  }));
}

TEST_CASE("a fall-back that gets a fall-back is an issue", "[identity]") {
  const auto book =
      extend(builtin_book(), R"({"methods": [{"id": "chop_disk", "summary": "Bale it.", "takes": ["spread"],
    "steps": [{"operation": "rake"}, {"operation": "bale"}],
    "fall_back": {"trigger": "no baler", "method": "leave", "start_by": "11-01"}}]})",
             "own");
  REQUIRE_FALSE(book.ok());
  CHECK(book.issues().size() == 5);  // every method that falls back on chop_disk
}

TEST_CASE("bales are off the field before water comes onto it", "[identity]") {
  const auto own = [](const std::string& steps) {
    return extend(builtin_book(),
                  R"({"methods": [{"id": "own", "summary": "Bale and flood.", "takes": ["windrow"],
      "harvest": {"lay": "windrow"}, "steps": [)" +
                      steps + R"(],
      "water": {"from_canal": true, "target_mm": 100, "board_mm": 150},
      "fall_back": {"trigger": "wet", "method": "chop_disk", "start_by": "11-01"}}]})",
                  "own.json");
  };
  const std::string water =
      R"({"operation": "boards_in", "season": "winter"}, {"operation": "fill", "season": "winter"},
    {"operation": "boards_out", "season": "winter"})";
  CHECK(own(R"({"operation": "bale"}, {"operation": "haul"}, )" + water).ok());
  const auto left = own(R"({"operation": "bale"}, )" + water);
  REQUIRE(left.issues().size() == 1);
  CHECK(left.issues().front().place == "methods[own].steps[1]");
  CHECK(left.issues().front().found == "water while the bales lie on the field");
  const auto late =
      own(R"({"operation": "bale"}, )" + water + R"(, {"operation": "haul", "season": "winter"})");
  CHECK(late.issues().size() == 1);
  for (const Recipe& r : builtin_book().recipes) {
    if (!r.bales || !r.water) continue;
    const auto at = [&](const std::string& id) {
      std::size_t k = 0;
      while (builtin_book().operations[static_cast<std::size_t>(r.steps[k].operation)].id.value != id) ++k;
      return k;
    };
    CHECK(at("bale") < at("haul"));
    CHECK(at("haul") < at("boards_in"));
  }
}
