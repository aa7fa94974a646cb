#include "winters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <stdexcept>

#include "catch2/catch.hpp"

namespace aftercut::validation {
namespace {

const Date season_first = make_date(2026, 9, 1);
constexpr int season_days = 273;  // to 31 May
const weather::Site station{38.54, -121.78, 18.0, -8.0, false};

std::optional<double> number(const std::string& cell) {
  if (cell.empty()) return std::nullopt;
  return std::stod(cell);
}

Record read_record(const geo::Table& table) {
  const auto column = [&](const char* name) { return column_of(table, name); };
  const std::size_t date = column("date"), rain = column("prcp_mm"), high = column("tmax_c"),
                    low = column("tmin_c"), warm = column("soil_max_c"), cold = column("soil_min_c");
  std::vector<weather::Row> rows;
  Record record;
  for (const auto& cells : table.rows) {
    weather::Row row;
    row.date = parse_iso_date(cells[date]).value();
    row.line = static_cast<int>(rows.size()) + 2;
    row.rain_mm = number(cells[rain]);
    row.tmax_c = number(cells[high]);
    row.tmin_c = number(cells[low]);
    const auto most = number(cells[warm]), least = number(cells[cold]);
    if (row.tmax_c && row.tmin_c) {
      SoilDay day{.date = row.date, .air_c = 0.5 * (*row.tmax_c + *row.tmin_c), .soil_c = {}};
      if (most && least) day.soil_c = 0.5 * (*most + *least);
      record.soil.push_back(day);
    }
    if (row.rain_mm) record.rain.push_back({row.date, *row.rain_mm});
    rows.push_back(row);
  }
  const auto series = weather::complete(rows, station, {}, table.file);
  if (!series) throw std::runtime_error("the Davis record has issues: " + to_text(series.issues().front()));
  record.winters = weather::lay_on_season(series.value(), station, season_first, season_days, 1971, 1994);
  return record;
}

}  // namespace

std::filesystem::path davis_file() {
  return std::filesystem::path{AFTERCUT_SOURCE_DIR} /
         "../shared/data/weather-open/davis_ca_daily_1970_1995.csv";
}

const std::optional<Record>& davis() {
  static const std::optional<Record> record = []() -> std::optional<Record> {
    if (!std::filesystem::exists(davis_file())) return std::nullopt;
    const auto table = geo::read_table(davis_file());
    if (!table) throw std::runtime_error(to_text(table.issues().front()));
    return read_record(table.value());
  }();
  return record;
}

bool no_record() {
  if (davis()) return false;
  WARN("skipped: ../shared with the Davis record is not there");
  return true;
}

std::size_t column_of(const geo::Table& table, const std::string& name) {
  const auto at = std::find(table.columns.begin(), table.columns.end(), name);
  if (at == table.columns.end()) throw std::runtime_error(table.file + " has no column " + name);
  return static_cast<std::size_t>(at - table.columns.begin());
}

farm::Farm one_field(double load_kg_per_ha, double cut_height_cm, straw::Lay lay) {
  farm::Farm farm;
  farm.season = {season_first, season_days};
  farm.soils = {soil::make_profile({})};
  farm.book = method::builtin_book();
  farm::Field field;
  field.id = FieldId{"1"};
  field.area = Hectare{20.0};
  field.harvest = make_date(2026, 10, 14);
  field.summer_drain = make_date(2026, 9, 20);
  field.straw_load = KgPerHa{load_kg_per_ha};
  field.cut = true;
  field.cut_height_cm = cut_height_cm;
  field.lay = lay;
  farm.fields = {field};
  return farm;
}

double at_share(std::vector<double> values, double p) {
  std::sort(values.begin(), values.end());
  const auto rank =
      static_cast<std::size_t>(std::max(1.0, std::ceil(p * static_cast<double>(values.size()) - 1e-9)));
  return values.at(rank - 1);
}

std::string three(const std::vector<double>& sample) {
  return fmt::format("{:.0f} / {:.0f} / {:.0f}", at_share(sample, 0.1), at_share(sample, 0.5),
                     at_share(sample, 0.9));
}

}  // namespace aftercut::validation
