#pragma once
// The journal's file: one entry a line, each line's sum chained to the line before (docs/journal.md). Written
// at its end only, by one writer at a time; nothing in it is ever written over.

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercut/core/disk.hpp"
#include "aftercut/core/result.hpp"
#include "aftercut/journal/entry.hpp"

namespace aftercut::journal {

inline constexpr const char* file_name = "journal.jsonl";

struct Log {
  std::vector<Entry> entries;   ///< in the order of recording
  std::string torn;             ///< bytes of a last line that was not written to its end, left out
  std::size_t whole_bytes = 0;  ///< of the file, before them
  std::string sum;              ///< of the last whole line
};

/// The entries of a journal's text; or every line in it that is not as it was written, `file` in front. A
/// last line that has no end, is no entry or has a wrong sum is torn, not an issue.
Result<Log> read_log_text(std::string_view text, const std::string& file = file_name);

/// The same of a farm folder; no file: no entries.
Result<Log> read_log(const std::filesystem::path& folder, Disk& disk = real_disk());

/// Writes the entries at the journal's end under the next numbers and gives them as they stand, once they are
/// on the disk: under the folder's lock, all lines in one write. One whose id is there already gives the
/// entry that stands. Issues, and the journal as it was: a fault in an entry (all of them); an id that
/// another entry has; another writer that does not end; a disk that refuses. A torn last line is put aside
/// first, as journal.torn-1.txt and so on.
Result<std::vector<Entry>> append_all(const std::filesystem::path& folder, const std::vector<Entry>& entries);
Result<Entry> append(const std::filesystem::path& folder, const Entry& entry);

/// What the journal does not take of an entry, whatever its number; `place` in front. Texts that are not
/// UTF-8 among it.
Issues format_faults(Entry entry, const std::string& place = "entry");

/// The whole journal's text: the entries under numbers from 1, with their sums. Takes entries without faults.
std::string log_text(const std::vector<Entry>& entries);

/// What a plan's digest of its journal is of: the entries that hold for it, one a line.
std::string standing_text(const std::vector<Entry>& standing);
/// How many of the first entries a plan knew that was made for `as_of`, by the digest of them that it carries
/// (empty: none held). None: it was made from another journal, or lies more than 200 entries of its own day
/// back.
std::optional<std::size_t> known_to_plan(const std::vector<Entry>& entries, Date as_of,
                                         const std::string& sha256);

/// One entry's JSON without its sum, keys sorted.
std::string entry_text(const Entry& entry);

}  // namespace aftercut::journal
