#pragma once
// Exports into a folder: all that are asked for, or none.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/report/exports.hpp"

namespace aftercut::report {

struct ExportsAsked {
  std::vector<std::string> names;  ///< empty: all
  std::optional<Paper> paper;      ///< none: letter for a farm in US units, else A4
  Language language = Language::english;
  std::optional<std::string> older_calendar;  ///< text of the calendar that the new one takes the place of
};

/// The names written, in the order of export_names(). Every issue at once: a broken plan.json, unknown names,
/// a broken older calendar, a disk that refuses.
Result<std::vector<std::string>> write_exports(const std::string& plan_json, const ExportsAsked& asked,
                                               const std::filesystem::path& out);

}  // namespace aftercut::report
