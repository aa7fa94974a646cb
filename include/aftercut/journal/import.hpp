#pragma once
// Entries from a table that somebody kept: one row an entry, its words as on the command line.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/journal/form.hpp"

namespace aftercut::journal {

/// What rows without a column of it take.
struct ImportDefaults {
  std::string by;
  std::string recorded_at;
  Date today;
};

/// Columns: done_on and what; also field, with, by, note and id. A row without an id takes one from what it
/// says, so that a file read twice is recorded once. Every fault of the file at once.
Result<std::vector<Entry>> read_import(const std::filesystem::path& file, const farm::Farm& farm,
                                       const ImportDefaults& defaults);

}  // namespace aftercut::journal
