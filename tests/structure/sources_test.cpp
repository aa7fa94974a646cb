// Each "Source: Key" in a comment leads to a row of docs/sources.md, and no key stands there twice.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "catch2/catch.hpp"
#include "tree.hpp"

using namespace aftercut::test;

namespace {

// What may stand after "Source:" in place of a key.
const std::vector<std::string> words{"common practice", "own fit",      "own judgement",
                                     "judgement",       "derived from", "derived",
                                     "definition",      "assumed",      "invented"};
const std::string mark = "Source:";

std::string trimmed(const std::string& text) {
  const std::string blanks = " \t*";
  const auto first = text.find_first_not_of(blanks);
  return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string first_word(const std::string& text) {
  std::string word = trimmed(text).substr(0, trimmed(text).find_first_of(" \t,;:()"));
  while (!word.empty() && word.back() == '.') word.pop_back();
  return word;
}

// First cells of the table rows of docs/sources.md, the heading rows left out.
std::vector<std::string> key_cells(const TextFile& page) {
  std::vector<std::string> cells;
  for (const std::string& line : page.lines) {
    if (!line.starts_with("|")) continue;
    const std::string cell = trimmed(line.substr(1, line.find('|', 1) - 1));
    if (cell != "Key" && cell.find_first_not_of("-: ") != std::string::npos) cells.push_back(cell);
  }
  return cells;
}

// The text after "Source:", with the next comment line when the mark ends its line.
std::string after_mark(const TextFile& file, std::size_t i, std::size_t at) {
  std::string rest = trimmed(file.lines[i].substr(at + mark.size()));
  if (rest.empty() && i + 1 < file.lines.size()) {
    const auto text = file.lines[i + 1].find_first_not_of(" \t/*");
    rest = text == std::string::npos ? "" : file.lines[i + 1].substr(text);
  }
  return rest;
}

// A mark counts inside a comment; elsewhere it is text for the user.
bool in_comment(const std::string& line, std::size_t at) {
  const std::string before = line.substr(0, at);
  return before.find("//") != std::string::npos || before.find("/*") != std::string::npos ||
         before.find('*') == before.find_first_not_of(" \t");
}

std::vector<std::string> unresolved(const std::vector<TextFile>& files, const std::set<std::string>& keys) {
  std::vector<std::string> found;
  for (const TextFile& file : files)
    for (std::size_t i = 0; i < file.lines.size(); ++i)
      for (auto at = file.lines[i].find(mark); at != std::string::npos;
           at = file.lines[i].find(mark, at + 1)) {
        if (!in_comment(file.lines[i], at)) continue;
        const std::string rest = after_mark(file, i, at);
        const bool worded = std::any_of(words.begin(), words.end(),
                                        [&](const std::string& w) { return rest.starts_with(w); });
        if (!worded && !keys.contains(first_word(rest)))
          found.push_back(fmt::format("{}:{}: Source: {}", file.path, i + 1, rest.substr(0, 50)));
      }
  return found;
}

std::set<std::string> keys_of(const std::vector<std::string>& cells) {
  std::set<std::string> keys;
  for (const std::string& cell : cells) keys.insert(first_word(cell));
  return keys;
}

std::vector<std::string> twice(const std::vector<std::string>& cells) {
  std::map<std::string, int> count;
  for (const std::string& cell : cells) ++count[cell];
  std::vector<std::string> found;
  for (const auto& [cell, n] : count)
    if (n > 1) found.push_back(cell);
  return found;
}

}  // namespace

TEST_CASE("every source key leads to a row of docs/sources.md", "[structure]") {
  const auto cells = key_cells(file_at("docs/sources.md"));
  REQUIRE(cells.size() > 5);
  auto files = files_below({"include", "src", "tests"}, {".cpp", ".hpp", ".mjs"});
  std::erase_if(files, [](const TextFile& f) {
    return f.path == "tests/structure/sources_test.cpp";
  });  // holds planted faults
  REQUIRE(files.size() > 20);
  for (const std::string& found : unresolved(files, keys_of(cells))) FAIL_CHECK(found);
}

TEST_CASE("no source key stands twice in docs/sources.md", "[structure]") {
  for (const std::string& found : twice(key_cells(file_at("docs/sources.md")))) FAIL_CHECK(found);
}

TEST_CASE("planted faults in sources are caught", "[structure]") {
  const std::set<std::string> keys = keys_of({"Allen1998", "D497", "A3-24", "Allen1998 ch. 6", "D497.7"});
  const auto bad = [&](const std::string& a, const std::string& b = "") {
    return unresolved({{"x.cpp", {a, b}}}, keys).size();
  };
  CHECK(bad("// Source: Nobody1900 p. 3 (read)") == 1);
  CHECK(bad("// Source: Allen1998 eq. 3. Source: Nobody1900") == 1);
  CHECK(bad("// Source:", "int x;") == 1);
  CHECK(bad("// Source: ") == 1);
  CHECK(bad("// Source: Allen1998, eq. 6 (recalled)") == 0);
  CHECK(bad("// 0.7. Source: D497.") == 0);
  CHECK(bad("// Source: D497.7 table 3; Source: A3-24 (read)") == 0);
  CHECK(bad("// from the tables. Source:", "/// Allen1998 eq. 6") == 0);
  CHECK(bad("// Source: common practice") == 0);
  CHECK(bad("const text = `Source: ${name}`;") == 0);
  CHECK(bad(" * Source: Nobody1900") == 1);
  CHECK(twice({"A", "B", "A"}) == std::vector<std::string>{"A"});
  CHECK(key_cells({"p", {"| Key | What |", "|---|---|", "| A1 | x |", "text", "| B2 | y |"}}) ==
        std::vector<std::string>{"A1", "B2"});
}
