#pragma once
// Plain HTML for paper: no script, nothing from the network, black on white. Internal to the room.

#include <string>
#include <vector>

#include "aftercut/report/exports.hpp"

namespace aftercut::report::sheets {

struct Page {
  std::string title;  ///< plain text
  Paper paper = Paper::a4;
  bool landscape = false;
  Language language = Language::english;
  std::string style;  ///< beside the common one
  std::string body;   ///< HTML
};
std::string html_of(const Page& page);

/// `<tag class="name">text</tag>` with the text escaped; no class where `name` is empty.
std::string tagged(const char* tag, const std::string& text, const char* name = "");
/// Widths of a table's columns in percent.
std::string columns(const std::vector<double>& percent);
/// A row of cells that are HTML already.
std::string table_row(const std::vector<std::string>& cells, const char* tag = "td");
/// A head row of plain texts.
std::string table_head(const std::vector<std::string>& texts);

}  // namespace aftercut::report::sheets
