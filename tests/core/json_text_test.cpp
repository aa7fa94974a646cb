// What is wrong with a text that should be JSON: one place for every file of ours.
#include "aftercut/core/json_text.hpp"

#include "catch2/catch.hpp"

using namespace aftercut;
using Catch::Contains;

namespace {

std::string nested(std::size_t deep) { return std::string(deep, '[') + std::string(deep, ']'); }

}  // namespace

TEST_CASE("a text that can be read has no faults", "[identity]") {
  for (const std::string& text :
       {std::string{R"({"a": [1, -2.5e10, true, null, "\u00e9\ud83d\ude00"]})"},
        std::string{"\xEF\xBB\xBF{\"name\": \"\xC3\xA9t\xC3\xA9\"}\r\n"}, std::string{"3"},
        std::string{R"([{"a": 1}, {"a": 1}, {"b": {"a": 1}}])"}, nested(deepest_json)}) {
    INFO(text);
    CHECK(json_text_faults(text, "x.json").empty());
  }
}

TEST_CASE("each fault of a text is told with its place, in UTF-8", "[regression]") {
  struct Row {
    const char* name;
    std::string text;
    const char* place;
    const char* found;
  };
  const std::vector<Row> rows{
      {"empty", "", "whole file", "an empty file"},
      {"blank", " \n\t", "whole file", "an empty file"},
      {"cut short", "{\"a\": [1,\n2", "line 2, column", "end of the file"},
      {"no comma", "{\"a\": 1\n \"b\": 2}", "line 2, column", "unexpected"},
      {"bytes behind the end", "{} x", "line 1, column", "invalid literal"},
      {"number beyond a double", "{\"a\": 1,\n \"b\": 1e999}", "line 2, column 7", "1e999"},
      {"number beyond a double in a list", "[1, -1e400]", "line 1, column 5", "-1e400"},
      {"not UTF-8 in a text", "{\"a\": \"\xE9\"}", "line 1, column", "not UTF-8"},
      {"not UTF-8 outside texts", "{\"a\": \xE9}", "line 1, column", "'\"a\": ?'"},
      {"key twice", R"({"a": [{"b": 1, "c": {}, "b": 2}]})", "a[0].b", "twice"},
      {"an empty key twice", R"({"": 1, "": 2})", "whole file", "twice"},
      {"nested too deep", "{\"a\": [0, " + nested(100000) + "]}", "a[1][0]", "more than 64"},
      {"opened too often", std::string(1000000, '['), "[0][0]", "more than 64"},
  };
  for (const Row& row : rows) {
    INFO(row.name);
    const Issues issues = json_text_faults(row.text, "x.json");
    REQUIRE(issues.size() == 1);
    INFO(to_text(issues[0]));
    CHECK(issues[0].file == "x.json");
    CHECK_THAT(issues[0].place, Contains(row.place));
    CHECK_THAT(issues[0].found, Contains(row.found));
    CHECK_FALSE(issues[0].expected.empty());
    CHECK_FALSE(issues[0].fix.empty());
    for (const char c : to_text(issues[0])) CHECK(static_cast<unsigned char>(c) < 0x80U);
  }
  CHECK(json_text_faults(R"({"a": 1, "a": 2, "b": {"c": 1, "c": 2}})", "x.json").size() == 2);
}
