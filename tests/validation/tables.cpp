#include "tables.hpp"

#include <cstdlib>
#include <filesystem>
#include <stdexcept>

#include "aftercut/core/save_file.hpp"

namespace aftercut::validation {
namespace {

std::string line_of(const std::vector<std::string>& cells) {
  std::string line = "|";
  for (const auto& cell : cells) line += " " + cell + " |";
  return line + "\n";
}

std::string text_of(const Table& table) {
  std::string text = line_of(table.columns) + "|";
  for (std::size_t i = 0; i < table.columns.size(); ++i) text += "---|";
  text += "\n";
  for (const auto& row : table.rows) text += line_of(row);
  return text;
}

}  // namespace

bool page_holds(const Table& table) {
  const char* asked = std::getenv("AFTERCUT_VALIDATION");
  const std::filesystem::path page = asked != nullptr
                                         ? std::filesystem::path{asked}
                                         : std::filesystem::path{AFTERCUT_SOURCE_DIR} / "docs/validation.md";
  std::string text = read_file(page).value();
  const std::string from = "<!-- " + table.name + " -->\n", to = "<!-- end " + table.name + " -->";
  const std::size_t begin = text.find(from), end = text.find(to);
  if (begin == std::string::npos || end == std::string::npos)
    throw std::runtime_error("docs/validation.md has no place for the table " + table.name);
  const std::size_t first = begin + from.size();
  const std::string wanted = text_of(table);
  if (text.compare(first, end - first, wanted) == 0) return true;
  if (asked == nullptr) return false;
  text.replace(first, end - first, wanted);
  return save_file(page, text).ok();
}

}  // namespace aftercut::validation
