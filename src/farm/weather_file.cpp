// The weather record and the forecast: tables of text into daily rows.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/core/digest.hpp"
#include "aftercut/geo/table.hpp"
#include "parts.hpp"
#include "units.hpp"

namespace aftercut::farm {
namespace {

constexpr std::size_t told_a_column = 10;  ///< faulty cells of one column that are told one by one

struct Element {
  const char* name;
  const char* unit;  ///< inside
  std::optional<double> weather::Row::*member;
  bool needed;
};
const std::array<Element, 7> elements{{{"tmin", "degC", &weather::Row::tmin_c, true},
                                       {"tmax", "degC", &weather::Row::tmax_c, true},
                                       {"rain", "mm", &weather::Row::rain_mm, true},
                                       {"rh_mean", "%", &weather::Row::rh_mean_percent, false},
                                       {"dewpoint", "degC", &weather::Row::dewpoint_c, false},
                                       {"wind", "m/s", &weather::Row::wind_m_s, false},
                                       {"solar", "MJ/m2", &weather::Row::solar_mj_m2, false}}};

/// A column of the table, and a x + b from its unit to ours.
struct Column {
  std::size_t at = 0;
  double factor = 1.0, offset = 0.0;
};

std::optional<std::size_t> index_of(const geo::Table& table, const std::string& name) {
  const auto at = std::find(table.columns.begin(), table.columns.end(), name);
  return at == table.columns.end() ? std::nullopt
                                   : std::optional{static_cast<std::size_t>(at - table.columns.begin())};
}

std::optional<std::string> suffix_unit(const std::string& column, const std::string& element) {
  const auto parts = parts_of(column, {element});
  if (!parts || parts->suffix.empty()) return std::nullopt;
  for (const Suffix& s : unit_suffixes())
    if (s.suffix == parts->suffix) return s.unit;
  return std::nullopt;
}

std::optional<Column> column_in(std::size_t at, const std::string& unit, const Element& e) {
  const auto zero = convert(0.0, unit, e.unit), one = convert(1.0, unit, e.unit);
  if (!zero || !one) return std::nullopt;
  // Whole factors such as those of mm and degC stay exact.
  return Column{at, *one - *zero, *zero};
}

/// The column that the mapping names.
std::optional<Column> mapped_column(const Object& columns, const geo::Table& table, const Element& e) {
  const auto plain = columns.text(e.name);
  const Object entry = columns.child(e.name);
  const std::string name = plain ? *plain : entry.text_or("column", "");
  const auto at = index_of(table, name);
  if (!at) {
    columns.fault(
        e.name, in_quotes(name), "a column of " + table.file,
        did_you_mean(name, table.columns, "correct the name; the file has " + listed(table.columns)));
    return std::nullopt;
  }
  const auto unit = entry.has("unit") ? entry.text("unit") : suffix_unit(name, e.name);
  const auto column = unit ? column_in(*at, *unit, e) : std::nullopt;
  if (!column)
    columns.fault(e.name, unit ? in_quotes(*unit) : "a column without a unit",
                  fmt::format("a unit that can be brought to {}", e.unit),
                  fmt::format("write {{\"column\": \"{}\", \"unit\": \"{}\"}}", name, e.unit));
  return column;
}

/// The column called like the element, with its unit behind.
std::optional<Column> own_column(const Object& part, const geo::Table& table, const Element& e) {
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const auto parts = parts_of(table.columns[c], {e.name});
    if (!parts) continue;
    const auto unit = suffix_unit(table.columns[c], e.name);
    const auto column = unit ? column_in(c, *unit, e) : std::nullopt;
    if (column) return column;
    part.faults().add(
        {table.file, "column " + table.columns[c], unit ? "the unit " + *unit : "no unit",
         fmt::format("a unit that can be brought to {}", e.unit),
         "let its name end in its unit (docs/farm-folder.md), or state the unit under `columns`"});
    return std::nullopt;
  }
  if (e.needed)
    part.faults().add({table.file, fmt::format("column {}", e.name), "no such column",
                       fmt::format("a column {} with its unit", e.name),
                       "name it under `columns`; the file has " + listed(table.columns)});
  return std::nullopt;
}

std::optional<std::size_t> date_column(const Object& part, const geo::Table& table) {
  const Object columns = part.child("columns");
  const std::string name = columns.text("date").value_or(columns.child("date").text_or("column", "date"));
  const auto at = index_of(table, name);
  if (!at)
    part.faults().add({table.file, "column date", "no such column", "a column of days, year-month-day",
                       "name it under `columns`; the file has " + listed(table.columns)});
  return at;
}

/// Cells of one column as numbers in our unit; the first faults one by one, the rest counted.
std::vector<std::optional<double>> numbers_of(const Object& part, const geo::Table& table, const Column& c) {
  std::vector<std::optional<double>> out;
  std::size_t faults = 0;
  const std::string& name = table.columns[c.at];
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const std::string& cell = table.rows[r][c.at];
    const auto value = parse_number(cell);
    out.push_back(value ? std::optional{*value * c.factor + c.offset} : std::nullopt);
    if (value || cell.empty() || ++faults > told_a_column) continue;
    part.faults().add({table.file, fmt::format("line {}, column {}", r + 2, name), in_quotes(cell),
                       "a number or an empty cell", "correct the cell, or empty it if nothing was measured"});
  }
  if (faults > told_a_column)
    part.faults().add({table.file, "column " + name,
                       fmt::format("{} more cells that are not numbers", faults - told_a_column),
                       "numbers or empty cells", "correct the column"});
  return out;
}

/// Nothing when a day cannot be read: the others would seem out of order.
std::vector<weather::Row> dated_rows(const Object& part, const geo::Table& table, std::size_t date_at) {
  std::vector<weather::Row> rows;
  std::size_t faults = 0;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const auto day = parse_iso_date(table.rows[r][date_at]);
    const int line = static_cast<int>(r) + 2;
    if (!day && ++faults <= told_a_column)
      part.faults().add({table.file, fmt::format("line {}, column {}", line, table.columns[date_at]),
                         in_quotes(table.rows[r][date_at]), "a day, such as 2026-09-20",
                         "write year-month-day"});
    weather::Row row;
    row.line = line;
    if (day) row.date = *day;
    rows.push_back(row);
  }
  if (faults > 0) rows.clear();
  return rows;
}

std::string canonical_table(const geo::Table& table) {
  std::string out;
  for (const auto& row : table.rows) {
    Json cells = Json::object();
    for (std::size_t c = 0; c < table.columns.size(); ++c)
      if (!row[c].empty()) cells[table.columns[c]] = row[c];
    out += cells.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
  }
  return out;
}

}  // namespace

WeatherRows read_weather_rows(const Object& part, const Folder& folder) {
  const auto file = part.text("file");
  if (!file) return {};
  const Result<geo::Table> read = geo::read_table(folder.path / *file);
  if (!read) {
    part.faults().add_all_as(*file, read.issues());
    return {};
  }
  geo::Table table = read.value();
  table.file = *file;
  WeatherRows out{{}, Farm::Input{*file, sha256_hex(canonical_table(table))}};
  const Object columns = part.child("columns");
  const auto date_at = date_column(part, table);
  if (date_at) out.rows = dated_rows(part, table, *date_at);
  bool whole = true;
  for (const Element& e : elements) {
    const auto column = columns.has(e.name) ? mapped_column(columns, table, e) : own_column(part, table, e);
    whole = whole && (column || !e.needed);
    if (!column) continue;
    const auto values = numbers_of(part, table, *column);
    for (std::size_t r = 0; r < out.rows.size(); ++r) out.rows[r].*(e.member) = values[r];
  }
  if (!whole) out.rows.clear();
  return out;
}

weather::GapRules read_gap_rules(const Object& w) {
  weather::GapRules g;
  g.longest_gap_days = w.whole("longest_gap_days", 0, 30).value_or(g.longest_gap_days);
  g.dewpoint_below_tmin_c = w.number("dewpoint_below_tmin_c", {0.0, 8.0}).value_or(g.dewpoint_below_tmin_c);
  g.mean_wind_m_s = w.quantity("mean_wind", "m/s", {0.1, 20.0}).value_or(g.mean_wind_m_s);
  g.wind_height_m = w.quantity("wind_height", "m", {0.5, 100.0}).value_or(g.wind_height_m);
  return g;
}

}  // namespace aftercut::farm
