// Rows of the field layer merged with field_defaults and field_values.

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/ids.hpp"
#include "parts.hpp"
#include "schema.hpp"
#include "units.hpp"

namespace aftercut::farm {
namespace {

/// Attributes that can be columns, without unit suffixes; "id" among them. The schema is the one list of
/// them.
std::vector<std::string> column_attributes() {
  std::vector<std::string> names;
  for (const auto& item :
       farm_schema()["properties"]["fields"]["properties"]["columns"]["properties"].items())
    names.push_back(item.key());
  return names;
}

/// Keys that a column can be called by itself: attributes with and without a unit suffix.
bool is_column_key(const std::string& key, const std::vector<std::string>& attributes) {
  return parts_of(key, attributes) &&
         farm_schema()["properties"]["field_defaults"]["properties"].contains(key);
}

std::string base_of(const std::string& key, const std::vector<std::string>& attributes) {
  const auto parts = parts_of(key, attributes);
  return parts ? parts->base : key;
}

/// One column to be read: what it is called, the key that its cells stand for, the unit to be added to them.
struct Source {
  std::string column, key, unit;
};

std::optional<Source> mapped(const Object& columns, const std::string& attribute) {
  if (!columns.has(attribute)) return std::nullopt;
  Source s;
  if (const auto plain = columns.text(attribute)) {
    s.column = *plain;
    // A column called YLD_lb_per_acre keeps its suffix.
    const auto parts = parts_of(s.column, {attribute});
    s.key = parts && !parts->suffix.empty() ? s.column : attribute;
  } else {
    const Object entry = columns.child(attribute);
    s = {entry.text_or("column", ""), attribute, entry.text_or("unit", "")};
    if (!s.unit.empty() && !is_unit(s.unit))
      entry.fault("unit", in_quotes(s.unit), "a unit that UDUNITS-2 knows", "correct the unit");
  }
  return s;
}

std::vector<Source> sources_of(const Object& part, const geo::Layer& layer) {
  const std::vector<std::string> attributes = column_attributes();
  const Object columns = part.child("columns");
  std::vector<Source> out;
  std::set<std::string> done;
  for (const std::string& a : attributes) {
    const auto s = mapped(columns, a);
    if (!s) continue;
    done.insert(a);
    if (std::find(layer.columns.begin(), layer.columns.end(), s->column) != layer.columns.end())
      out.push_back(*s);
    else
      columns.fault(
          a, in_quotes(s->column), "a column of " + layer.file,
          did_you_mean(s->column, layer.columns, "correct the name; the file has " + listed(layer.columns)));
  }
  for (const std::string& c : layer.columns)
    if ((c == "id" || is_column_key(c, attributes)) && !done.contains(base_of(c, attributes)))
      out.push_back({c, c, ""});
  const bool has_id = done.contains("id") ||
                      std::any_of(out.begin(), out.end(), [](const Source& s) { return s.key == "id"; });
  if (!has_id)
    part.faults().add({layer.file, "column id", "no such column", "a column with a unique id for each field",
                       "name it under fields.columns.id; the file has " + listed(layer.columns)});
  return out;
}

/// Values gathered for one field, later sources over earlier ones.
class Gathered {
 public:
  explicit Gathered(std::vector<std::string> attributes) : attributes_{std::move(attributes)} {}

  /// Takes over what `from` says and drops what is there under the same attribute.
  void lay_over(const Json& from, const std::map<std::string, Origin>& origins) {
    for (const auto& item : from.items()) {
      const std::string base = base_of(item.key(), attributes_);
      std::erase_if(origins_, [&](const auto& o) {
        return base_of(o.first, attributes_) == base && !from.contains(o.first);
      });
      for (auto it = values.begin(); it != values.end();)
        it = base_of(it.key(), attributes_) == base && !from.contains(it.key()) ? values.erase(it)
                                                                                : std::next(it);
    }
    for (const auto& item : from.items()) {
      values[item.key()] = item.value();
      origins_.insert_or_assign(item.key(), origins.at(item.key()));
    }
  }
  /// Drops what is there under the attribute.
  void forget(const std::string& attribute) {
    std::erase_if(origins_, [&](const auto& o) { return base_of(o.first, attributes_) == attribute; });
    for (auto it = values.begin(); it != values.end();)
      it = base_of(it.key(), attributes_) == attribute ? values.erase(it) : std::next(it);
  }
  [[nodiscard]] const std::map<std::string, Origin>& origins() const { return origins_; }
  Json values = Json::object();

 private:
  std::vector<std::string> attributes_;
  std::map<std::string, Origin> origins_;
};

std::map<std::string, Origin> origins_of(const Object& o, const Json& values) {
  std::map<std::string, Origin> out;
  for (const auto& item : values.items()) out[item.key()] = o.origin(item.key());
  return out;
}

std::vector<Object> read_entries(const Object& top) {
  std::vector<Object> out = top.list("field_values");
  std::set<std::string> seen;
  for (const Object& o : out) {
    const auto id = o.text("id");
    if (id && !seen.insert(*id).second)
      o.fault("id", in_quotes(*id) + " twice", "one entry a field", "put the two entries together");
  }
  return out;
}

/// All that is needed to read one row of the layer.
struct RowReader {
  Object top;
  geo::Layer layer;
  std::vector<Source> sources;
  std::vector<std::string> attributes;
  std::vector<Object> entries;
};

std::string id_of(const RowReader& r, const geo::Feature& f) {
  for (const Source& s : r.sources)
    if (s.key == "id" && f.values.contains(s.column)) return f.values.at(s.column);
  return "";
}

std::string place_of(const RowReader& r, const geo::Feature& f) {
  const std::string id = id_of(r, f);
  const std::string row =
      r.layer.reference_system.empty() ? fmt::format("line {}", f.row + 1) : fmt::format("feature {}", f.row);
  return id.empty() ? row : fmt::format("{} (field {})", row, id);
}

Gathered with_cells(const RowReader& r, const geo::Feature& f, Gathered g) {
  Json cells = Json::object();
  std::map<std::string, Origin> origins;
  for (const Source& s : r.sources) {
    if (s.key == "id" || !f.values.contains(s.column)) continue;
    const std::string& text = f.values.at(s.column);
    cells[s.key] = s.unit.empty() ? text : text + " " + s.unit;
    origins[s.key] = {r.layer.file, place_of(r, f) + ", column " + s.column};
  }
  g.lay_over(cells, origins);
  return g;
}

FieldRow read_row(const RowReader& r, const geo::Feature& f) {
  const std::string id = id_of(r, f);
  const Object defaults = r.top.child("field_defaults");
  Gathered g{r.attributes};
  g.lay_over(defaults.json(), origins_of(defaults, defaults.json()));
  g = with_cells(r, f, std::move(g));
  for (const Object& entry : r.entries) {
    if (entry.text_or("id", "") != id || id.empty()) continue;
    for (const std::string& attribute : entry.texts("not_known")) g.forget(attribute);
    Json values = entry.json();
    values.erase("id");
    values.erase("not_known");
    g.lay_over(values, origins_of(entry, values));
  }
  return {id, Object{g.values, {r.layer.file, place_of(r, f)}, r.top.faults(), g.origins()}, f.shape};
}

void check_ids(const RowReader& r) {
  std::map<std::string, int> first_row;
  const bool has_id =
      std::any_of(r.sources.begin(), r.sources.end(), [](const Source& s) { return s.key == "id"; });
  for (const geo::Feature& f : r.layer.features) {
    const std::string id = id_of(r, f);
    if (id.empty() && has_id)
      r.top.faults().add({r.layer.file, place_of(r, f), "no id", "a unique id", "fill the id in"});
    if (id.empty() || first_row.emplace(id, f.row).second) continue;
    r.top.faults().add({r.layer.file, place_of(r, f),
                        fmt::format("the id {} again (first in row {})", in_quotes(id), first_row[id]),
                        "each id once", "give one of the two another id"});
  }
  std::vector<std::string> ids;
  for (const auto& [id, row] : first_row) ids.push_back(id);
  for (const Object& entry : r.entries) {
    const auto id = entry.text("id");
    if (has_id && id && !first_row.contains(*id))
      entry.fault("id", in_quotes(*id), "the id of a field of " + r.layer.file,
                  did_you_mean(*id, ids, "correct the id or take the entry out"));
  }
}

}  // namespace

FieldRows read_field_rows(const Object& top, const Folder& folder) {
  const Object part = top.child("fields");
  const auto layer = open_layer(part, folder);
  if (!layer) return {};
  const RowReader reader{top, *layer, sources_of(part, *layer), column_attributes(), read_entries(top)};
  check_ids(reader);
  FieldRows out{{},
                !layer->reference_system.empty(),
                layer->file,
                Farm::Input{layer->file, sha256_hex(canonical_rows(*layer))}};
  for (const geo::Feature& f : layer->features) out.rows.push_back(read_row(reader, f));
  std::stable_sort(out.rows.begin(), out.rows.end(),
                   [](const FieldRow& a, const FieldRow& b) { return natural_less(a.id, b.id); });
  return out;
}

}  // namespace aftercut::farm
