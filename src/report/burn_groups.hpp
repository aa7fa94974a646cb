#pragma once
// Rows that many fields have in common, each once. Internal to the room.

#include <string>
#include <vector>

#include "aftercut/burn/rules.hpp"

namespace aftercut::report {

/// The rows of one field; `field` is an index that the caller gives a meaning.
struct RowsOf {
  std::size_t field = 0;
  std::vector<burn::RowWords> rows;
};

/// What is found on some fields by the same row.
struct SharedReason {
  std::string why;  ///< may be empty
  std::vector<std::size_t> fields;
  friend bool operator==(const SharedReason&, const SharedReason&) = default;
};

/// Rows with the same words, and what they say of which field.
struct SharedRow {
  std::vector<std::string> names;  ///< several where rows of different names say all the same
  std::string quote, source;
  std::vector<SharedReason> reasons;
};

/// Every row of every field once, in the order of its first field; nothing is left out.
std::vector<SharedRow> shared_rows(const std::vector<RowsOf>& fields);
/// The source that more than half of at least two rows have; empty: none.
std::string common_source(const std::vector<SharedRow>& rows);

}  // namespace aftercut::report
