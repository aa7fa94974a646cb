#include "aftercut/weather/row_checks.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "aftercut/weather/evapotranspiration.hpp"

namespace aftercut::weather {
namespace {

struct Column {
  const char* name;
  const char* unit;
  std::optional<double> Row::*value;
  double least;
  double most;
};

// Beyond these a value is a slip of the unit or the sensor, on any farm. Source: RowBounds (assumed)
constexpr std::array kColumns{
    Column{"tmin", "degrees C", &Row::tmin_c, -60.0, 60.0},
    Column{"tmax", "degrees C", &Row::tmax_c, -60.0, 60.0},
    Column{"rain", "mm", &Row::rain_mm, 0.0, 1000.0},
    Column{"rh_mean", "percent", &Row::rh_mean_percent, 1.0, 100.0},
    Column{"dewpoint", "degrees C", &Row::dewpoint_c, -60.0, 40.0},
    Column{"wind", "m/s", &Row::wind_m_s, 0.0, 60.0},
    Column{"solar", "MJ/m2 a day", &Row::solar_mj_m2, 0.0, 50.0},
};
constexpr double kSolarSlack =
    1.0;  // MJ/m2 above the sunlight outside the air, for the sensor's error. Source: RowBounds (assumed)

std::string place_of(const Row& row) {
  return row.line > 0 ? fmt::format("line {} ({})", row.line, iso(row.date)) : iso(row.date);
}

void add_range_faults(Issues& issues, const Row& row, const std::string& file) {
  for (const Column& column : kColumns) {
    const auto& value = row.*column.value;
    if (!value || (*value >= column.least && *value <= column.most)) continue;
    issues.push_back({file, place_of(row), fmt::format("{} {} {}", column.name, *value, column.unit),
                      fmt::format("{} to {} {}", column.least, column.most, column.unit),
                      "correct the value or its unit, or leave the cell empty"});
  }
}

void add_pair_faults(Issues& issues, const Row& row, const std::string& file) {
  if (row.tmin_c && row.tmax_c && *row.tmin_c > *row.tmax_c) {
    issues.push_back({file, place_of(row), fmt::format("tmin {} above tmax {}", *row.tmin_c, *row.tmax_c),
                      "tmin at most tmax", "swap or correct the two values"});
  }
  if (row.dewpoint_c && row.tmax_c && *row.dewpoint_c > *row.tmax_c) {
    issues.push_back({file, place_of(row),
                      fmt::format("dewpoint {} above tmax {}", *row.dewpoint_c, *row.tmax_c),
                      "a dew point no warmer than the air", "correct the value or leave the cell empty"});
  }
}

void add_solar_fault(Issues& issues, const Row& row, const Site& site, const std::string& file) {
  if (!row.solar_mj_m2) return;
  const double most =
      extraterrestrial_radiation(site.latitude_deg, day_of_year(row.date)).value() + kSolarSlack;
  if (!(*row.solar_mj_m2 > most)) return;
  issues.push_back({file, place_of(row), fmt::format("solar {} MJ/m2 a day", *row.solar_mj_m2),
                    fmt::format("at most {:.1f}, the sunlight above the air on that day at latitude {}", most,
                                site.latitude_deg),
                    "check the unit of the column and the latitude of the site"});
}

// The rows whose date is later than every one before; the others are issues.
std::vector<Row> in_order(Issues& issues, const std::vector<Row>& rows, const std::string& file) {
  std::vector<Row> kept;
  for (const Row& row : rows) {
    if (kept.empty() || kept.back().date < row.date) {
      kept.push_back(row);
      continue;
    }
    const bool twice = kept.back().date == row.date;
    issues.push_back({file, place_of(row),
                      twice ? fmt::format("{} a second time", iso(row.date))
                            : fmt::format("{} after {}", iso(row.date), iso(kept.back().date)),
                      "dates that rise, one row a day",
                      twice ? "keep one of the two rows" : "sort the rows by date"});
  }
  return kept;
}

struct GapColumn {
  const char* name;
  std::optional<double> Row::*value;
  bool needs_neighbours;  // filled between two recorded days
};
constexpr std::array kGapColumns{GapColumn{"tmin", &Row::tmin_c, true}, GapColumn{"tmax", &Row::tmax_c, true},
                                 GapColumn{"rain", &Row::rain_mm, false}};

struct Gap {
  Date from;
  Date to;
  auto operator<=>(const Gap&) const = default;
};

bool too_long(const Gap& gap, const GapColumn& column, const std::vector<Row>& rows, int longest) {
  const bool at_end = gap.from == rows.front().date || gap.to == rows.back().date;
  return gap.to - gap.from + 1 > longest || (column.needs_neighbours && at_end);
}

std::vector<Gap> gaps_of(const GapColumn& column, const std::vector<Row>& rows) {
  std::vector<Gap> gaps;
  Date expected = rows.front().date;  // the day after the last one recorded
  for (const Row& row : rows) {
    if (!(row.*column.value)) continue;
    if (row.date > expected) gaps.push_back({expected, row.date - 1});
    expected = row.date + 1;
  }
  if (expected <= rows.back().date) gaps.push_back({expected, rows.back().date});
  return gaps;
}

void add_gap_faults(Issues& issues, const std::vector<Row>& rows, const GapRules& rules,
                    const std::string& file) {
  std::map<Gap, std::string> names;
  for (const GapColumn& column : kGapColumns) {
    for (const Gap& gap : gaps_of(column, rows)) {
      if (!too_long(gap, column, rows, rules.longest_gap_days)) continue;
      std::string& text = names[gap];
      text += (text.empty() ? "" : ", ") + std::string{column.name};
    }
  }
  for (const auto& [gap, columns] : names) {
    issues.push_back(
        {file, fmt::format("{} to {}", iso(gap.from), iso(gap.to)),
         fmt::format("no {} on {} days", columns, gap.to - gap.from + 1),
         fmt::format("at most {} days without a value; temperatures on the first and the last day",
                     rules.longest_gap_days),
         "fill the gap from a station nearby, or cut the record there"});
  }
}

}  // namespace

Issues row_faults(const std::vector<Row>& rows, const Site& site, const GapRules& rules,
                  const std::string& file) {
  if (rows.empty()) {
    return {{file, "whole file", "no day", "one row a day: date, tmin, tmax, rain",
             "give a file with daily rows"}};
  }
  Issues issues;
  for (const Row& row : rows) {
    const std::size_t before = issues.size();
    add_range_faults(issues, row, file);
    if (issues.size() > before) continue;  // a slip of the unit is named once
    add_pair_faults(issues, row, file);
    add_solar_fault(issues, row, site, file);
  }
  add_gap_faults(issues, in_order(issues, rows, file), rules, file);
  return issues;
}

Issues shortened(Issues issues, std::size_t most, const std::string& file) {
  if (issues.size() <= most) return issues;
  const std::size_t rest = issues.size() - most;
  issues.resize(most);
  issues.push_back({file, "further on", fmt::format("and {} more", rest), "none",
                    "correct these first; the same slip often repeats"});
  return issues;
}

}  // namespace aftercut::weather
