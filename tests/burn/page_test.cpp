// The page docs/burn-rules.md and the program know the same rows, in both directions.
#include <map>
#include <regex>
#include <sstream>

#include "aftercut/burn/rules.hpp"
#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::burn;

namespace {

struct TableRow {
  std::string kind, comparison;
  std::vector<std::string> units;
};

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream in{line.substr(1)};
  for (std::string cell; std::getline(in, cell, '|');)
    cells.push_back(cell.size() > 2 ? cell.substr(1, cell.size() - 2) : "");
  return cells;
}

std::vector<std::string> words_in_ticks(const std::string& cell) {
  static const std::regex word{"`([^`]+)`"};
  std::vector<std::string> words;
  for (std::sregex_iterator at{cell.begin(), cell.end(), word}, end; at != end; ++at)
    words.push_back((*at)[1]);
  return words;
}

/// The table under "Rows that are known".
std::map<std::string, TableRow> table_of_page() {
  const auto page = read_file(std::string{AFTERCUT_SOURCE_DIR} + "/docs/burn-rules.md");
  REQUIRE(page.ok());
  const std::size_t from = page.value().find("## Rows that are known");
  const std::size_t until = page.value().find("\n## ", from + 5);
  std::istringstream lines{page.value().substr(from, until - from)};
  std::map<std::string, TableRow> rows;
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("| `")) continue;
    const auto cells = cells_of(line);
    REQUIRE(cells.size() == 5);
    const auto name = words_in_ticks(cells[0]);
    REQUIRE(name.size() == 1);
    CHECK(cells[4].size() > 3);  // says what it is held against
    rows[name.front()] = {cells[1], words_in_ticks(cells[3]).front(), words_in_ticks(cells[2])};
  }
  return rows;
}

}  // namespace

TEST_CASE("the page tells every row that the program knows, and no other", "[identity]") {
  const auto page = table_of_page();
  CHECK(page.size() == row_kinds().size());
  for (const RowKind& known : row_kinds()) {
    CAPTURE(known.name);
    REQUIRE(page.contains(known.name));
    const TableRow& told = page.at(known.name);
    CHECK(told.kind == to_text(known.role));
    CHECK(told.comparison == known.comparison);
    CHECK(told.units == known.units);
  }
}
