// Layers beside the fields: places and levees; layers as canonical text.

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/ids.hpp"
#include "aftercut/geo/table.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

const std::vector<std::string> place_kinds{"home", "school", "road", "power_line", "canal", "trees", "other"};

std::string path_text(const geo::Path& path) {
  std::string out = "(";
  for (const geo::Point& p : path) out += fmt::format("{:.9f} {:.9f},", p.x, p.y);
  return out + ")";
}

std::string shape_text(const geo::Shape& shape) {
  std::string out;
  for (const geo::Polygon& p : shape.polygons) {
    out.append("P").append(path_text(p.outer));
    for (const geo::Path& hole : p.holes) out.append("H").append(path_text(hole));
  }
  for (const geo::Path& line : shape.lines) out.append("L").append(path_text(line));
  return out.append("D").append(path_text(shape.points));
}

bool is_table(const std::string& file) {
  const std::size_t dot = file.rfind('.');
  return dot != std::string::npos && (file.substr(dot) == ".csv" || file.substr(dot) == ".CSV");
}

geo::Layer as_layer(const geo::Table& table) {
  geo::Layer layer{table.file, "", table.columns, {}};
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    geo::Feature f;
    f.row = static_cast<int>(r) + 1;
    for (std::size_t c = 0; c < table.columns.size(); ++c)
      if (!table.rows[r][c].empty()) f.values[table.columns[c]] = table.rows[r][c];
    layer.features.push_back(std::move(f));
  }
  return layer;
}

Result<geo::Layer> read_any(const std::filesystem::path& path, const std::string& file,
                            const std::optional<std::string>& name) {
  if (!is_table(file)) return geo::read_layer(path, name);
  const Result<geo::Table> table = geo::read_table(path);
  if (!table) return table.issues();
  return as_layer(table.value());
}

Farm::Input input_of(const geo::Layer& layer) { return {layer.file, sha256_hex(canonical_rows(layer))}; }

std::optional<PlaceKind> kind_of(const std::string& word) {
  const auto at = std::find(place_kinds.begin(), place_kinds.end(), word);
  return at == place_kinds.end() ? std::nullopt
                                 : std::optional{static_cast<PlaceKind>(at - place_kinds.begin())};
}

}  // namespace

std::optional<std::string> column_for(const Object& part, const geo::Layer& layer, const std::string& what,
                                      bool needed) {
  const Object columns = part.child("columns");
  const std::string name = columns.text_or(what, what);
  if (std::find(layer.columns.begin(), layer.columns.end(), name) != layer.columns.end()) return name;
  const std::string fix = did_you_mean(
      name, layer.columns, "name the column under `columns`; the file has " + listed(layer.columns));
  if (columns.has(what))
    columns.fault(what, in_quotes(name), "a column of " + layer.file, fix);
  else if (needed)
    part.faults().add({layer.file, "column " + what, "no such column", "a column " + what, fix});
  return std::nullopt;
}

std::string cell_of(const geo::Feature& f, const std::optional<std::string>& column) {
  if (!column) return "";
  const auto at = f.values.find(*column);
  return at == f.values.end() ? "" : at->second;
}

std::string canonical_rows(const geo::Layer& layer) {
  std::vector<std::string> lines;
  for (const geo::Feature& f : layer.features) {
    Json row = Json::object();
    for (const auto& [column, value] : f.values) row[column] = value;
    lines.push_back(row.dump(-1, ' ', false, Json::error_handler_t::replace) + shape_text(f.shape));
  }
  std::sort(lines.begin(), lines.end());
  std::string out;
  for (const std::string& line : lines) out += line + "\n";
  return out;
}

std::optional<geo::Layer> open_layer(const Object& part, const Folder& folder) {
  const auto file = part.text("file");
  if (!file) return std::nullopt;
  const Result<geo::Layer> read = read_any(folder.path / *file, *file, part.text("layer"));
  if (!read) {
    part.faults().add_all_as(*file, read.issues());
    return std::nullopt;
  }
  geo::Layer layer = read.value();
  layer.file = *file;
  return layer;
}

Places read_places(const Object& top, const Folder& folder) {
  if (!top.has("places")) return {};
  const Object part = top.child("places");
  const auto layer = open_layer(part, folder);
  if (!layer) return {};
  Places out{{}, input_of(*layer)};
  const auto kind_column = column_for(part, *layer, "kind", true),
             name_column = column_for(part, *layer, "name", false);
  for (const geo::Feature& f : layer->features) {
    const std::string word = cell_of(f, kind_column);
    const auto kind = kind_of(word);
    if (kind_column && !kind)
      part.faults().add({layer->file, fmt::format("feature {}, column {}", f.row, *kind_column),
                         in_quotes(word), "one of " + listed(place_kinds),
                         did_you_mean(word, place_kinds, "write one of these words")});
    out.places.push_back({cell_of(f, name_column), kind.value_or(PlaceKind::other), f.shape});
  }
  std::sort(out.places.begin(), out.places.end(), [](const Place& a, const Place& b) {
    if (a.kind != b.kind) return a.kind < b.kind;
    if (a.name != b.name) return natural_less(a.name, b.name);
    return shape_text(a.shape) < shape_text(b.shape);
  });
  return out;
}

Leveed with_levees(std::vector<Field> fields, const Object& top, const Folder& folder) {
  Leveed out{std::move(fields), {}};
  if (!top.has("levees")) return out;
  const Object part = top.child("levees");
  const auto layer = open_layer(part, folder);
  if (!layer) return out;
  out.input = input_of(*layer);
  const auto column = column_for(part, *layer, "field", true);
  for (const geo::Feature& f : layer->features) {
    const std::string id = cell_of(f, column);
    const auto field =
        std::find_if(out.fields.begin(), out.fields.end(), [&](const Field& x) { return x.id.value == id; });
    if (field != out.fields.end())
      field->levees.insert(field->levees.end(), f.shape.lines.begin(), f.shape.lines.end());
    else if (column)
      part.faults().add({layer->file, fmt::format("feature {}, column {}", f.row, *column), in_quotes(id),
                         "the id of a field", "correct the id or take the line out"});
  }
  for (Field& f : out.fields) std::sort(f.levees.begin(), f.levees.end());
  return out;
}

}  // namespace aftercut::farm
