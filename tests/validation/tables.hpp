#pragma once
// The tables of docs/validation.md. A test works its table out and holds the page against it; with
// AFTERCUT_VALIDATION naming the page, the table is written there instead, between the marks <!-- name -->
// and <!-- end name -->.

#include <string>
#include <vector>

namespace aftercut::validation {

struct Table {
  std::string name;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;
};

/// True when the page holds this table, or has just been given it.
bool page_holds(const Table& table);

}  // namespace aftercut::validation
