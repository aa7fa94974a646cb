#include "aftercut/geo/table.hpp"

#include <cpl_conv.h>
#include <cpl_csv.h>
#include <cpl_string.h>
#include <cpl_vsi.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <memory>

#include "aftercut/core/date.hpp"
#include "aftercut/core/save_file.hpp"
#include "gdal.hpp"

namespace aftercut::geo {
namespace {

namespace fs = std::filesystem;
using Row = std::vector<std::string>;

struct CloseFile {
  void operator()(VSILFILE* file) const { VSIFCloseL(file); }
};

std::string trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return std::string{text.substr(first, text.find_last_not_of(blanks) - first + 1)};
}

Issue at_line(const fs::path& file, std::size_t line, std::string found, std::string expected,
              std::string fix) {
  return {file.string(), fmt::format("line {}", line), std::move(found), std::move(expected), std::move(fix)};
}

// Faults of the bytes: empty, binary, not UTF-8.
Issues byte_faults(const fs::path& file, const std::string& text) {
  const std::string_view mark = "\xEF\xBB\xBF";
  if (trimmed(text).empty() || text == mark)
    return {{file.string(), "whole file", "an empty file", "a header line and rows",
             "export or copy the table again"}};
  std::size_t line = 1, begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string part = text.substr(begin, end - begin);
    if (part.find('\0') != std::string::npos || !CPLIsUTF8(part.c_str(), static_cast<int>(part.size())))
      return {at_line(file, line, "bytes that are not UTF-8 text", "UTF-8 text",
                      "save the table again as CSV in UTF-8")};
    begin = end + 1;
    ++line;
  }
  return {};
}

// The separator that the header line uses most, outside quotation marks; a comma when it has none.
std::string separator_of(const std::string& text) {
  const std::string header = text.substr(0, text.find_first_of("\r\n"));
  std::map<char, int> count{{',', 0}, {';', 0}, {'\t', 0}};
  bool quoted = false;
  for (const char c : header) {
    if (c == '"') quoted = !quoted;
    if (!quoted && count.contains(c)) ++count[c];
  }
  const auto most = std::max_element(count.begin(), count.end(), [](const auto& a, const auto& b) {
    return a.second < b.second || (a.second == b.second && a.first != ',' && b.first == ',');
  });
  return std::string{most->first};
}

// The next record as GDAL's CSV reader splits it; nothing at the end of the file.
std::optional<Row> next_record(VSILFILE* file, const std::string& separator) {
  constexpr std::size_t longest_line = 10U << 20U;  // bytes
  const CPLStringList cells{
      CSVReadParseLine3L(file, longest_line, separator.c_str(), true, false, false, true)};
  if (cells.List() == nullptr) return std::nullopt;
  Row row;
  for (int i = 0; i < cells.Count(); ++i) row.emplace_back(cells[i]);
  return row;
}

bool is_blank(const Row& row) {
  return std::all_of(row.begin(), row.end(), [](const std::string& c) { return trimmed(c).empty(); });
}

bool is_value(const std::string& cell) {
  double number = 0.0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), number);
  return cell.empty() || parse_iso_date(cell) || (error == std::errc{} && end == cell.data() + cell.size());
}

Issues header_faults(const fs::path& file, const Row& columns) {
  if (std::all_of(columns.begin(), columns.end(), is_value))
    return {at_line(file, 1, "no header: the first line holds values only", "the names of the columns",
                    "put a first line with the name of each column")};
  Issues issues;
  std::map<std::string, std::size_t> seen;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (columns[i].empty()) {
      issues.push_back(at_line(file, 1, fmt::format("column {} without a name", i + 1),
                               "a name for each column", "name the column or take it out"));
    } else if (const auto [first, fresh] = seen.emplace(columns[i], i); !fresh) {
      issues.push_back(at_line(
          file, 1,
          fmt::format("duplicate column '{}' (columns {} and {})", columns[i], first->second + 1, i + 1),
          "each name once", "rename or take out one of the two"));
    }
  }
  return issues;
}

Issues row_faults(const fs::path& file, std::size_t line, const Row& row, std::size_t width) {
  Issues issues;
  for (const std::string& cell : row)
    if (cell.find_first_of("\r\n") != std::string::npos)
      issues.push_back(at_line(file, line, "a quoted cell that goes on over the line's end",
                               "each row on one line",
                               "close the quotation mark or take the line break out"));
  if (issues.empty() && row.size() != width)
    issues.push_back(at_line(file, line,
                             fmt::format("{} cells", is_blank(row) && row.size() <= 1 ? 0 : row.size()),
                             fmt::format("{} cells, as in the header", width),
                             "fill the row up, quote cells that hold the separator, or take the line out"));
  return issues;
}

void append(Issues& to, Issues more) { std::move(more.begin(), more.end(), std::back_inserter(to)); }

}  // namespace

Result<Table> read_table(const fs::path& file) {
  start_gdal();
  const Listener listener;
  const Result<std::string> text = read_file(file);
  if (!text) return text.issues();
  if (Issues faults = byte_faults(file, text.value()); !faults.empty()) return faults;
  const std::unique_ptr<VSILFILE, CloseFile> in{VSIFOpenL(file.c_str(), "rb")};
  if (!in)
    return Issues{
        {file.string(), "whole file", "GDAL could not open it", "a readable file", "check its rights"}};

  Table table{file.string(), {}, {}};
  const std::string separator = separator_of(text.value());
  for (const std::string& cell : next_record(in.get(), separator).value_or(Row{}))
    table.columns.push_back(trimmed(cell));
  Issues issues = header_faults(file, table.columns);
  std::size_t line = 1, blank_from = 0;
  while (std::optional<Row> row = next_record(in.get(), separator)) {
    ++line;
    if (is_blank(*row) && row->size() <= 1) {
      if (blank_from == 0) blank_from = line;
      continue;
    }
    if (blank_from != 0)
      issues.push_back(
          at_line(file, blank_from, "an empty line between rows", "rows without gaps", "take the line out"));
    blank_from = 0;
    append(issues, row_faults(file, line, *row, table.columns.size()));
    for (std::string& cell : *row) cell = trimmed(cell);
    table.rows.push_back(std::move(*row));
  }
  if (listener.failed())
    issues.push_back(
        {file.string(), "whole file", listener.text(), "a readable table", "export or copy the table again"});
  if (!issues.empty()) return issues;
  return table;
}

}  // namespace aftercut::geo
