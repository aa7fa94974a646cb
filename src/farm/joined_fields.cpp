#include "joined_fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "aftercut/geo/layer.hpp"

namespace aftercut::farm {
namespace {

constexpr double area_differs =
    0.05;  ///< share from which an entered area that differs from the boundary is noted

struct Joining {
  Joined joined;
  Issues issues;
};

/// The column of the boundaries that names the most fields of the table; the first of equals.
std::string name_column_of(const geo::Layer& layer, const std::set<std::string>& names) {
  std::string best;
  std::ptrdiff_t most = 0;
  for (const std::string& column : layer.columns) {
    const auto hits = std::count_if(layer.features.begin(), layer.features.end(), [&](const geo::Feature& f) {
      const auto at = f.values.find(column);
      return at != f.values.end() && names.contains(at->second);
    });
    if (hits > most) {
      most = hits;
      best = column;
    }
  }
  return best;
}

/// One row with its boundary, or the issue.
void join_row(Joining& out, const TableField& row, const std::vector<const geo::Feature*>& found,
              const std::string& file) {
  const auto issue = [&](std::string what, std::string fix) {
    out.issues.push_back({file, fmt::format("field '{}'", row.name), std::move(what),
                          "one polygon of that name", std::move(fix)});
  };
  if (found.empty())
    return issue("no boundary of that name", "name the boundary as the table does, or the other way round");
  if (found.size() > 1)
    return issue(fmt::format("{} boundaries of that name", found.size()), "join or rename them");
  const geo::Shape& shape = found[0]->shape;
  if (shape.polygons.empty()) return issue("no polygon", "draw the field as a polygon");
  const Hectare area = geo::geodesic_area(shape);
  if (row.area && std::abs(*row.area / area - 1.0) > area_differs)
    out.joined.notes.push_back(
        fmt::format("{}: the table says {:.2f} ha, the boundary has {:.2f} ha; the boundary holds", row.name,
                    row.area->value(), area.value()));
  out.joined.fields.push_back({row, shape, area});
}

Joining join(const std::vector<TableField>& rows, const geo::Layer& layer) {
  Joining out;
  std::set<std::string> names;
  for (const TableField& row : rows) names.insert(row.name);
  const std::string column = name_column_of(layer, names);
  if (column.empty()) {
    out.issues.push_back({layer.file, fmt::format("columns {}", fmt::join(layer.columns, ", ")),
                          "no column that holds names of the table", "a column with the names of the fields",
                          "add the column, or name the fields of the table as the boundaries do"});
    return out;
  }
  std::map<std::string, std::vector<const geo::Feature*>> by_name;
  for (const geo::Feature& f : layer.features)
    if (const auto at = f.values.find(column); at != f.values.end()) by_name[at->second].push_back(&f);
  for (const TableField& row : rows) join_row(out, row, by_name[row.name], layer.file);
  for (const auto& [name, features] : by_name)
    if (!names.contains(name))
      out.joined.notes.push_back(fmt::format("boundary '{}' has no row in the table and is left out", name));
  return out;
}

Joined without_boundaries(const std::vector<TableField>& rows) {
  Joined out;
  for (const TableField& row : rows) out.fields.push_back({row, {}, row.area.value_or(Hectare{})});
  return out;
}

}  // namespace

Result<Joined> join_fields(const std::filesystem::path& table,
                           const std::optional<std::filesystem::path>& boundaries) {
  const auto rows = read_field_table(table, !boundaries);
  if (!boundaries) return rows ? Result<Joined>{without_boundaries(rows.value())} : rows.issues();
  const auto layer = geo::read_layer(*boundaries);
  Issues issues = rows.issues();
  for (const Issue& i : layer.issues()) issues.push_back(i);
  if (!issues.empty()) return issues;
  Joining joining = join(rows.value(), layer.value());
  if (!joining.issues.empty()) return joining.issues;
  return std::move(joining.joined);
}

}  // namespace aftercut::farm
