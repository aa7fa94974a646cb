#pragma once
// The grower's own table of fields, as a new farm folder starts from it: one row a field, units in the
// header. Columns: docs/new-farm.md.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/quantity.hpp"
#include "aftercut/core/result.hpp"

namespace aftercut::farm {

struct TableField {
  int line = 0;  ///< of the table, 1 is the header
  std::string name;
  std::optional<Hectare> area;
  Date harvest;
  std::string soil;
  std::string ticket;             ///< several rows with the same ticket share its grain by area; empty: own
  std::optional<Kilogram> grain;  ///< as delivered, on the row's ticket
  std::optional<KgPerHa> yield;   ///< as delivered
  std::optional<double> moisture_percent;  ///< of the delivered grain, wet basis
};

/// Reads the table. Issues: those of geo::read_table; a column that is missing or has no unit that we know; a
/// cell that is not a number or not a day; a name twice; a field with neither grain nor yield; rows of one
/// ticket that disagree.
Result<std::vector<TableField>> read_field_table(const std::filesystem::path& file, bool area_needed);

}  // namespace aftercut::farm
