#pragma once
// Sheets to print and files for other programs, all made from plan.json's text alone.

#include <string>
#include <vector>

#include "aftercut/core/result.hpp"

namespace aftercut::report {

enum class Paper { a4, letter };
enum class Language { english, spanish };

struct ExportOptions {
  Paper paper = Paper::a4;
  Language language = Language::english;  ///< of work lists and the combine card; the others are English
};

struct Exported {
  std::string name, media_type, bytes;
};

/// What can be asked for, in a fixed order.
std::vector<std::string> export_names();

/// The same text and options give the same bytes. Issues: an unknown name; a plan.json that is broken.
Result<Exported> export_of(const std::string& plan_json, const std::string& name,
                           const ExportOptions& options);

}  // namespace aftercut::report
