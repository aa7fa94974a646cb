// A value or every issue; and conditions that only our own mistakes can break.
#include "aftercut/core/result.hpp"

#include <memory>

#include "catch2/catch.hpp"

using namespace aftercut;
using Catch::Contains;

namespace {
Result<int> half(int n) {
  if (n % 2 != 0) return Issues{{"numbers.txt", "line 3", std::to_string(n), "an even number", "double it"}};
  return n / 2;
}
}  // namespace

TEST_CASE("a Result holds a value or issues", "[identity]") {
  const Result<int> good = half(8), bad = half(7);
  CHECK(good.ok());
  CHECK(good);
  CHECK(good.value() == 4);
  CHECK(good.issues().empty());
  CHECK_FALSE(bad.ok());
  CHECK_FALSE(bad);
  REQUIRE(bad.issues().size() == 1);
  CHECK(to_text(bad.issues()[0]) == "numbers.txt: line 3: found 7; expected an even number; fix: double it");
}

TEST_CASE("asking a failed Result for its value, or failing without an issue, is our own fault",
          "[identity]") {
  CHECK_THROWS_AS(half(7).value(), InternalError);
  CHECK_THROWS_AS(Result<int>{Issues{}}, InternalError);
}

TEST_CASE("a Result gives its value away", "[identity]") {
  Result<std::unique_ptr<int>> r{std::make_unique<int>(5)};
  const std::unique_ptr<int> taken = std::move(r).value();
  CHECK(*taken == 5);
}

TEST_CASE("a Result may hold a list of issues as its value", "[identity]") {
  const Result<std::string> text{std::string{"ok"}};
  CHECK(text.value() == "ok");
}

TEST_CASE("require names the place of the caller", "[identity]") {
  CHECK_NOTHROW(require(true, "never"));
  CHECK_THROWS_WITH(require(false, "the pond has a bottom"),
                    Contains("the pond has a bottom") && Contains("result_test.cpp"));
  CHECK_THROWS_AS(fail("stop"), InternalError);
}

TEST_CASE("an issue is one line without characters that steer a terminal", "[regression]") {
  const Issue issue{"a.json", "name\n", std::string("\x1b[2J\0\r", 6), "a \x7f text", "mend it"};
  CHECK(to_text(issue) == "a.json: name?: found ?[2J??; expected a ? text; fix: mend it");
}

TEST_CASE("a long text is cut between two characters", "[regression]") {
  CHECK(shortened("short") == "short");
  CHECK(shortened(std::string(60, 'x')) == std::string(60, 'x'));
  CHECK(shortened(std::string(61, 'x')) == std::string(60, 'x') + "...");
  CHECK(shortened(std::string(59, 'x') + "\xC3\xA9") == std::string(59, 'x') + "...");
  CHECK(shortened(std::string(58, 'x') + "\xC3\xA9y") == std::string(58, 'x') + "\xC3\xA9...");
}
