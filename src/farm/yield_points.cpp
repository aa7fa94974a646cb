// The files of a yield map: tables and layers of points, rasters.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/core/digest.hpp"
#include "aftercut/geo/table.hpp"
#include "units.hpp"
#include "yield_parts.hpp"

namespace aftercut::farm {
namespace {

constexpr std::size_t told_cells = 5;  ///< faulty cells of one file that are told one by one

/// A file's rows as text, whatever its format.
struct MapRows {
  std::string file;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;  ///< [row][column]
  std::vector<geo::Point> places;              ///< [row]; empty for a table
};

/// A column and the factor from its unit to ours; 0: no such column.
struct MapColumn {
  std::size_t at = 0;
  double factor = 0.0;
};

std::string ending_of(const std::string& file) {
  std::string e = std::filesystem::path{file}.extension().string();
  std::transform(e.begin(), e.end(), e.begin(), [](unsigned char c) { return std::tolower(c); });
  return e;
}

std::string canonical_text(const MapRows& m) {
  std::vector<std::size_t> order(m.columns.size());
  for (std::size_t c = 0; c < order.size(); ++c) order[c] = c;
  std::sort(order.begin(), order.end(), [&](auto a, auto b) { return m.columns[a] < m.columns[b]; });
  std::vector<std::string> lines;
  for (std::size_t r = 0; r < m.rows.size(); ++r) {
    std::string line;
    for (const std::size_t c : order)
      if (!m.rows[r][c].empty()) line += m.columns[c] + "\x1f" + m.rows[r][c] + "\x1e";
    if (!m.places.empty()) line += fmt::format("{:.9f} {:.9f}", m.places[r].x, m.places[r].y);
    lines.push_back(std::move(line));
  }
  std::sort(lines.begin(), lines.end());
  return fmt::format("{}", fmt::join(lines, "\n"));
}

std::optional<MapRows> rows_of_table(const Object& part, const Folder& folder, const std::string& file) {
  Result<geo::Table> read = geo::read_table(folder.path / file);
  if (!read) {
    part.faults().add_all_as(file, read.issues());
    return std::nullopt;
  }
  geo::Table table = std::move(read).value();
  return MapRows{file, std::move(table.columns), std::move(table.rows), {}};
}

std::optional<MapRows> rows_of_layer(const Object& part, const Folder& folder, const std::string& file) {
  const Result<geo::Layer> layer = geo::read_layer(folder.path / file, part.text("layer"));
  if (!layer) {
    part.faults().add_all_as(file, layer.issues());
    return std::nullopt;
  }
  MapRows out{file, layer.value().columns, {}, {}};
  for (const geo::Feature& f : layer.value().features) {
    if (f.shape.points.size() != 1 || !f.shape.polygons.empty() || !f.shape.lines.empty()) {
      part.faults().add({file, fmt::format("feature {}", f.row), "a shape that is no single point",
                         "one point for each measurement", "export the yield as points, or as a raster"});
      return std::nullopt;
    }
    out.places.push_back(f.shape.points.front());
    std::vector<std::string> cells;
    for (const std::string& c : out.columns) {
      const auto at = f.values.find(c);
      cells.push_back(at == f.values.end() ? "" : at->second);
    }
    out.rows.push_back(std::move(cells));
  }
  return out;
}

std::optional<std::size_t> index_of_name(const MapRows& m, const std::string& name) {
  const auto at = std::find(m.columns.begin(), m.columns.end(), name);
  return at == m.columns.end() ? std::nullopt
                               : std::optional{static_cast<std::size_t>(at - m.columns.begin())};
}

std::string unit_behind(const std::string& column, const std::string& what) {
  const auto parts = parts_of(column, {what});
  if (parts)
    for (const Suffix& s : unit_suffixes())
      if (s.suffix == parts->suffix && !s.suffix.empty()) return s.unit;
  return "";
}

/// The column that holds `what`: by the mapping, else by its name with a unit behind.
std::optional<MapColumn> quantity_column(const Object& part, const MapRows& m, const std::string& what,
                                         const std::string& unit, bool needed) {
  const Object columns = part.child("columns"), entry = columns.child(what);
  std::string name = columns.text(what).value_or(entry.text_or("column", ""));
  if (name.empty())
    for (const std::string& c : m.columns)
      if (parts_of(c, {what})) name = c;
  const auto at = index_of_name(m, name);
  if (!at) {
    if (columns.has(what))
      columns.fault(what, in_quotes(name), "a column of " + m.file,
                    did_you_mean(name, m.columns, "correct the name; the file has " + listed(m.columns)));
    else if (needed)
      part.faults().add({m.file, "column " + what, "no such column", "a column " + what + " with its unit",
                         "name it under yield_map.columns; the file has " + listed(m.columns)});
    return needed || columns.has(what) ? std::nullopt : std::optional{MapColumn{}};
  }
  const std::string stated = entry.has("unit") ? entry.text_or("unit", "") : unit_behind(name, what);
  const auto factor = convert(1.0, stated, unit);
  if (factor) return MapColumn{*at, *factor};
  part.faults().add({m.file, "column " + name, stated.empty() ? "no unit" : "the unit " + in_quotes(stated),
                     "a unit that can be brought to " + unit,
                     fmt::format("write yield_map.columns.{} as {{\"column\": \"{}\", \"unit\": \"{}\"}}",
                                 what, name, unit)});
  return std::nullopt;
}

std::optional<std::size_t> place_column(const Object& part, const MapRows& m, const std::string& what,
                                        const std::vector<std::string>& usual) {
  const Object columns = part.child("columns");
  if (const auto name = columns.text(what)) {
    const auto at = index_of_name(m, *name);
    if (!at)
      columns.fault(what, in_quotes(*name), "a column of " + m.file,
                    did_you_mean(*name, m.columns, "correct the name; the file has " + listed(m.columns)));
    return at;
  }
  for (const std::string& name : usual)
    if (const auto at = index_of_name(m, name)) return at;
  part.faults().add({m.file, "column " + what, "no such column",
                     "a column of places, such as " + listed(usual),
                     "name it under yield_map.columns." + what + "; the file has " + listed(m.columns)});
  return std::nullopt;
}

/// A cell as a number; an empty one as nothing; a faulty one told and counted.
std::optional<double> number_in(const Object& part, const MapRows& m, std::size_t row, std::size_t column,
                                std::size_t& faulty) {
  const std::string& cell = m.rows[row][column];
  if (cell.empty()) return std::nullopt;
  const auto value = parse_number(cell);
  if (!value && ++faulty <= told_cells)
    part.faults().add({m.file,
                       m.places.empty() ? fmt::format("line {}, column {}", row + 2, m.columns[column])
                                        : fmt::format("feature {}, column {}", row + 1, m.columns[column]),
                       in_quotes(cell), "a number or an empty cell", "correct the cell or empty it"});
  return value;
}

/// Places of a table's rows; a row without one gets not-a-number. Empty: issues.
std::vector<geo::Point> places_of_table(const Object& part, const MapRows& m, std::size_t& faulty) {
  const auto x = place_column(part, m, "x", {"lon", "longitude", "x"});
  const auto y = place_column(part, m, "y", {"lat", "latitude", "y"});
  if (!x || !y) return {};
  const bool degrees = m.columns[*x].starts_with("lon") && m.columns[*y].starts_with("lat");
  const auto system = part.text("reference_system");
  if (!system && !degrees) {
    part.faults().add({m.file, fmt::format("columns {} and {}", m.columns[*x], m.columns[*y]),
                       "no reference system", "the reference system of the places, e.g. \"EPSG:32610\"",
                       "state yield_map.reference_system (longitude and latitude: \"EPSG:4326\")"});
    return {};
  }
  std::vector<geo::Point> out(m.rows.size(), geo::Point{NAN, NAN}), given;
  std::vector<std::size_t> rows;
  for (std::size_t r = 0; r < m.rows.size(); ++r) {
    const auto px = number_in(part, m, r, *x, faulty), py = number_in(part, m, r, *y, faulty);
    if (!px || !py) continue;
    given.push_back({*px, *py});
    rows.push_back(r);
  }
  const auto placed = geo::on_wgs84(given, system.value_or("EPSG:4326"));
  if (!placed) {
    for (Issue i : placed.issues()) {
      const bool name = i.place == "reference system";
      part.faults().add({name ? part.file() : m.file, name ? part.origin("reference_system").place : i.place,
                         i.found, i.expected, i.fix});
    }
    return {};
  }
  for (std::size_t k = 0; k < rows.size(); ++k) out[rows[k]] = placed.value()[k];
  return out;
}

std::vector<MapPoint> points_of_rows(const Object& part, const MapRows& m) {
  if (m.rows.empty()) {
    part.faults().add({m.file, "whole file", "no rows below its header", "a row for each measurement",
                       "export the yield again"});
    return {};
  }
  const auto yield = quantity_column(part, m, "yield", "kg/ha", true);
  const auto moisture = quantity_column(part, m, "moisture", "%", false);
  std::size_t faulty = 0;
  const std::vector<geo::Point> places = m.places.empty() ? places_of_table(part, m, faulty) : m.places;
  if (!yield || !moisture || places.empty()) return {};
  std::vector<MapPoint> out;
  for (std::size_t r = 0; r < m.rows.size(); ++r) {
    MapPoint p{places[r], number_in(part, m, r, yield->at, faulty), std::nullopt};
    if (p.kg_per_ha) *p.kg_per_ha *= yield->factor;
    if (moisture->factor > 0.0) p.moisture = number_in(part, m, r, moisture->at, faulty);
    if (p.moisture) *p.moisture *= moisture->factor / 100.0;
    if (std::isnan(p.at.x)) p.kg_per_ha.reset();
    out.push_back(p);
  }
  if (faulty > told_cells)
    part.faults().add({m.file, "cells",
                       fmt::format("{} more cells that are not numbers", faulty - told_cells),
                       "numbers or empty cells", "correct the columns or the mapping"});
  return out;
}

std::string canonical_raster(const geo::Grid& g) {
  std::string text = fmt::format("{}\n{} {} {} {} {} {}\n", g.reference_system, g.left, g.top, g.cell_x,
                                 g.cell_y, g.columns, g.rows);
  for (const double v : g.values) text += std::isnan(v) ? "-\n" : fmt::format("{}\n", v);
  return text;
}

std::vector<MapPoint> points_of_raster(const Object& part, const geo::Grid& grid, const std::string& file) {
  const std::string unit = part.text_or("unit", grid.unit);
  const auto factor = convert(1.0, unit, "kg/ha");
  if (!factor) {
    part.fault("unit", unit.empty() ? "nothing" : in_quotes(unit), "a unit that can be brought to kg/ha",
               "write the unit of the raster's values, such as \"unit\": \"t/ha\"");
    return {};
  }
  const auto samples = geo::samples_of(grid);
  if (!samples) {
    part.faults().add_all_as(file, samples.issues());
    return {};
  }
  std::vector<MapPoint> out;
  for (const geo::Sample& s : samples.value()) out.push_back({s.at, s.value * *factor, std::nullopt});
  return out;
}

bool is_raster(const Object& part, const std::string& file) {
  if (const auto kind = part.word("kind", {"points", "raster"})) return *kind == 1;
  const std::vector<std::string> endings{".tif", ".tiff", ".asc", ".img"};
  return std::find(endings.begin(), endings.end(), ending_of(file)) != endings.end();
}

struct OneFile {
  std::vector<MapPoint> points;
  std::optional<Farm::Input> input;
};

OneFile read_raster_file(const Object& part, const Folder& folder, const std::string& file) {
  const auto grid = geo::read_raster(folder.path / file);
  if (grid)
    return {points_of_raster(part, grid.value(), file),
            Farm::Input{file, sha256_hex(canonical_raster(grid.value()))}};
  part.faults().add_all_as(file, grid.issues());
  return {};
}

OneFile read_one_file(const Object& part, const Folder& folder, const std::string& file) {
  if (is_raster(part, file)) return read_raster_file(part, folder, file);
  const auto rows =
      ending_of(file) == ".csv" ? rows_of_table(part, folder, file) : rows_of_layer(part, folder, file);
  if (!rows) return {};
  return {points_of_rows(part, *rows), Farm::Input{file, sha256_hex(canonical_text(*rows))}};
}

}  // namespace

MapPoints read_map_points(const Object& part, const Folder& folder) {
  std::vector<std::string> files = part.texts("files");
  if (const auto file = part.text("file")) files.push_back(*file);
  if (files.empty()) part.fault("file", "nothing", "a file of yields", "name it under yield_map.file");
  MapPoints out;
  for (const std::string& file : files) {
    OneFile one = read_one_file(part, folder, file);
    out.points.insert(out.points.end(), one.points.begin(), one.points.end());
    if (one.input) out.inputs.push_back(*one.input);
  }
  return out;
}

}  // namespace aftercut::farm
