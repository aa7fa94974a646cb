#include "aftercut/farm/field_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <string_view>

#include "aftercut/core/customary.hpp"
#include "aftercut/geo/table.hpp"

namespace aftercut::farm {
namespace {

// Exact by definition: international pound, acre, hundredweight and short ton.

/// What a column can hold, its header without the unit, and the units [to the SI unit of TableField].
struct Column {
  const char* what;
  std::vector<const char*> stems;
  std::vector<std::pair<const char*, double>> units;  ///< empty: no unit
  const char* example;
};

const Column name_column{"name", {"field", "name", "field_name"}, {}, "field"};
const Column harvest_column{"harvest day", {"harvest", "harvest_date", "harvested"}, {}, "harvest"};
const Column soil_column{"soil", {"soil", "soil_name", "soil_type"}, {}, "soil"};
const Column ticket_column{"ticket", {"ticket", "ticket_id", "dryer_ticket"}, {}, "ticket"};
const Column area_column{
    "area",
    {"area"},
    {{"ha", 1.0}, {"hectares", 1.0}, {"acres", ha_per_acre}, {"acre", ha_per_acre}, {"ac", ha_per_acre}},
    "area_ha or area_acres"};
const Column grain_column{"grain",
                          {"grain", "delivered", "dryer"},
                          {{"kg", 1.0},
                           {"t", 1000.0},
                           {"tonnes", 1000.0},
                           {"lb", kg_per_lb},
                           {"lbs", kg_per_lb},
                           {"cwt", 100.0 * kg_per_lb},
                           {"short_tons", kg_per_short_ton}},
                          "grain_t or grain_lb"};
const Column yield_column{"yield",
                          {"yield", "grain_yield"},
                          {{"kg_ha", 1.0},
                           {"t_ha", 1000.0},
                           {"lb_acre", kg_per_lb / ha_per_acre},
                           {"lb_ac", kg_per_lb / ha_per_acre},
                           {"lbs_acre", kg_per_lb / ha_per_acre},
                           {"cwt_acre", 100.0 * kg_per_lb / ha_per_acre},
                           {"cwt_ac", 100.0 * kg_per_lb / ha_per_acre}},
                          "yield_t_per_ha or yield_lb_per_acre"};
const Column moisture_column{
    "moisture", {"moisture", "grain_moisture"}, {{"percent", 1.0}}, "moisture_percent"};

/// "Yield (t/ha)" and "yield_t_per_ha" -> "yield_t_ha".
std::string plain_header(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool upper = c >= 'A' && c <= 'Z';
    const bool keep = upper || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (c == '%')
      out += "_percent";
    else if (keep)
      out += upper ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!out.empty() && out.back() != '_')
      out += '_';
  }
  while (!out.empty() && out.back() == '_') out.pop_back();
  for (auto at = out.find("__"); at != std::string::npos; at = out.find("__")) out.erase(at, 1);
  if (const auto at = out.find("_per_"); at != std::string::npos) out.erase(at, 4);
  return out;
}

struct Found {
  std::size_t index = 0;
  double factor = 1.0;
};

/// The table with its columns recognised.
struct Reading {
  const geo::Table& table;
  std::map<const Column*, Found> columns;
  Issues issues;

  [[nodiscard]] const std::string* cell(std::size_t row, const Column& column) const {
    const auto at = columns.find(&column);
    if (at == columns.end() || table.rows[row][at->second.index].empty()) return nullptr;
    return &table.rows[row][at->second.index];
  }
};

std::string place_of(std::size_t row, const Column& column) {
  return fmt::format("line {}, {}", row + 2, column.what);
}

/// Whether this header is the column, and with which unit.
std::optional<double> factor_of(const std::string& header, const Column& column) {
  for (const char* stem : column.stems) {
    if (column.units.empty() && header == stem) return 1.0;
    for (const auto& [unit, factor] : column.units)
      if (header == fmt::format("{}_{}", stem, unit)) return factor;
  }
  return {};
}

/// Takes the header for the column; a second column of the kind and a bare header where a unit is needed are
/// issues.
void take(Reading& r, std::size_t index, const Column& column) {
  const std::string header = plain_header(r.table.columns[index]);
  const std::string place = fmt::format("column '{}'", r.table.columns[index]);
  if (const auto factor = factor_of(header, column)) {
    if (!r.columns.emplace(&column, Found{index, *factor}).second)
      r.issues.push_back({r.table.file, place, fmt::format("a second column for the {}", column.what),
                          "one column", "remove or rename one of them"});
    return;
  }
  const bool bare = std::find(column.stems.begin(), column.stems.end(), header) != column.stems.end();
  if (bare)
    r.issues.push_back(
        {r.table.file, place, "a header without a unit", column.example, "put the unit into the header"});
}

void require_column(Reading& r, const Column& column) {
  if (r.columns.contains(&column)) return;
  for (const Issue& i : r.issues)
    if (i.expected == column.example) return;  // it is there, with a faulty header
  r.issues.push_back({r.table.file, "header line", fmt::format("no column for the {}", column.what),
                      fmt::format("a column such as {}", column.example), "add the column"});
}

void find_columns(Reading& r, bool area_needed) {
  const auto all = {&name_column, &harvest_column, &soil_column,  &ticket_column,
                    &area_column, &grain_column,   &yield_column, &moisture_column};
  for (std::size_t i = 0; i < r.table.columns.size(); ++i)
    for (const Column* column : all) take(r, i, *column);
  require_column(r, name_column);
  require_column(r, harvest_column);
  require_column(r, soil_column);
  if (area_needed) require_column(r, area_column);
  if (!r.columns.contains(&yield_column)) require_column(r, grain_column);
}

/// A number above zero and at most `most`, in the unit of the header, or an issue.
std::optional<double> number(Reading& r, std::size_t row, const Column& column, double most) {
  const std::string* text = r.cell(row, column);
  if (!text) return {};
  double value = 0.0;
  const char* end = text->data() + text->size();
  const auto got = std::from_chars(text->data(), end, value);
  const bool good = got.ec == std::errc{} && got.ptr == end && std::isfinite(value);
  const double factor = r.columns.at(&column).factor;
  if (good && value > 0.0 && value * factor <= most) return value * factor;
  r.issues.push_back({r.table.file, place_of(row, column), fmt::format("'{}'", *text),
                      fmt::format("a number above 0 and at most {:.6g}", most / factor),
                      "write the number alone, with a point before decimals"});
  return {};
}

std::string needed_text(Reading& r, std::size_t row, const Column& column) {
  if (const std::string* text = r.cell(row, column)) return *text;
  if (r.columns.contains(&column))
    r.issues.push_back({r.table.file, place_of(row, column), "an empty cell",
                        fmt::format("the {}", column.what), "fill the cell"});
  return {};
}

Date harvest_day(Reading& r, std::size_t row) {
  const std::string text = needed_text(r, row, harvest_column);
  if (text.empty()) return {};
  if (const auto day = parse_iso_date(text)) return *day;
  r.issues.push_back({r.table.file, place_of(row, harvest_column), fmt::format("'{}'", text),
                      "a day such as 2026-09-20", "write year-month-day"});
  return {};
}

TableField read_row(Reading& r, std::size_t row, bool area_needed) {
  TableField f;
  f.line = static_cast<int>(row) + 2;
  f.name = needed_text(r, row, name_column);
  if (const auto ha = number(r, row, area_column, 5000.0)) f.area = Hectare{*ha};
  if (area_needed && !r.cell(row, area_column)) needed_text(r, row, area_column);
  f.harvest = harvest_day(r, row);
  f.soil = needed_text(r, row, soil_column);
  if (const std::string* ticket = r.cell(row, ticket_column)) f.ticket = *ticket;
  if (const auto kg = number(r, row, grain_column, 1e8)) f.grain = Kilogram{*kg};
  if (const auto kg_ha = number(r, row, yield_column, 25000.0)) f.yield = KgPerHa{*kg_ha};
  f.moisture_percent = number(r, row, moisture_column, 40.0);
  return f;
}

void check_names(Reading& r, const std::vector<TableField>& fields) {
  std::map<std::string, int> seen;
  for (const TableField& f : fields) {
    if (f.name.empty()) continue;
    const auto [at, fresh] = seen.emplace(f.name, f.line);
    if (!fresh)
      r.issues.push_back({r.table.file, fmt::format("line {}, name", f.line),
                          fmt::format("'{}', as on line {}", f.name, at->second),
                          "a name that no other field has", "rename one of them"});
  }
}

template <class T>
bool differ(const std::optional<T>& a, const std::optional<T>& b) {
  return a && b && *a != *b;
}

/// Every field has grain of its own, of its ticket, or a yield; rows of one ticket say the same.
void check_grain(Reading& r, const std::vector<TableField>& fields) {
  std::map<std::string, TableField> tickets;
  for (const TableField& f : fields) {
    if (f.ticket.empty()) continue;
    TableField& t = tickets.try_emplace(f.ticket, f).first->second;
    if (differ(t.grain, f.grain) || differ(t.moisture_percent, f.moisture_percent))
      r.issues.push_back({r.table.file, fmt::format("line {}, ticket '{}'", f.line, f.ticket),
                          fmt::format("another grain or moisture than on line {}", t.line),
                          "one grain and one moisture a ticket",
                          "put the whole grain of the ticket on each of its rows, or on one of them"});
    if (!t.grain) t.grain = f.grain;
    if (!t.moisture_percent) t.moisture_percent = f.moisture_percent;
  }
  for (const TableField& f : fields) {
    const bool has = f.yield || f.grain || (!f.ticket.empty() && tickets.at(f.ticket).grain);
    if (!has)
      r.issues.push_back({r.table.file, fmt::format("line {}", f.line), "neither grain nor yield",
                          "the field's grain, its ticket's grain, or its yield", "fill one of the cells"});
  }
}

}  // namespace

Result<std::vector<TableField>> read_field_table(const std::filesystem::path& file, bool area_needed) {
  const auto table = geo::read_table(file);
  if (!table) return table.issues();
  Reading r{table.value(), {}, {}};
  find_columns(r, area_needed);
  if (!r.issues.empty()) return r.issues;
  std::vector<TableField> fields;
  for (std::size_t row = 0; row < r.table.rows.size(); ++row) fields.push_back(read_row(r, row, area_needed));
  if (fields.empty())
    r.issues.push_back({r.table.file, "whole file", "no row", "one row a field", "add the fields"});
  check_names(r, fields);
  if (r.issues.empty()) check_grain(r, fields);
  if (!r.issues.empty()) return r.issues;
  return fields;
}

}  // namespace aftercut::farm
