#pragma once
// A plain table (CSV) as rows of text. What the columns mean is the caller's business.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"

namespace aftercut::geo {

struct Table {
  std::string file;                            ///< as named in issues
  std::vector<std::string> columns;            ///< trimmed header cells, in the file's order
  std::vector<std::vector<std::string>> rows;  ///< [row][column], trimmed; row 0 stands on line 2 of the file
};

/// Reads a comma, semicolon or tab separated file with a header line (GDAL's CSV driver, every cell as text).
/// Issues: no such file, empty file, no header, duplicate column, a row with too many or too few cells, not
/// UTF-8.
Result<Table> read_table(const std::filesystem::path& file);

}  // namespace aftercut::geo
