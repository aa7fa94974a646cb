#pragma once
// The rows of a new farm's table, each with its boundary.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/field_table.hpp"
#include "aftercut/geo/shape.hpp"

namespace aftercut::farm {

struct NewField {
  TableField row;
  geo::Shape shape;  ///< empty without boundaries
  Hectare area;      ///< of the boundary, else as entered
};

struct Joined {
  std::vector<NewField> fields;    ///< in the table's order
  std::vector<std::string> notes;  ///< areas that differ, boundaries without a row
};

/// Reads both files and joins them by name. The boundaries' column is the one that holds the most names of
/// the table. Issues: those of either file; no such column; a row with no boundary, with two, or with one
/// that is no polygon.
Result<Joined> join_fields(const std::filesystem::path& table,
                           const std::optional<std::filesystem::path>& boundaries);

}  // namespace aftercut::farm
