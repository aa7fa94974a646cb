#include "record_farm.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "aftercut/farm/new_farm.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/geo/table.hpp"
#include "winters.hpp"

namespace aftercut::validation {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

const char* const fields =
    "field,area_ha,harvest,soil,yield_t_per_ha\n"
    "F1,38,2026-09-14,clay,9.2\n"
    "F2,27,2026-09-18,clay,9.6\n"
    "F3,44,2026-09-22,silty clay,8.9\n"
    "F4,31,2026-09-26,clay,9.4\n"
    "F5,24,2026-09-30,clay,9.0\n"
    "F6,41,2026-10-04,silty clay,9.5\n"
    "F7,29,2026-10-09,clay,8.8\n"
    "F8,35,2026-10-14,clay,9.1\n"
    "F9,26,2026-10-20,clay,9.3\n";

/// A folder of its own, gone with the value.
struct Folder {
  fs::path path = fs::temp_directory_path() / fmt::format("aftercut-hindcast-{}", ::getpid());
  Folder() { fs::create_directories(path); }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
};

/// Rain and temperatures alone: the record's other columns do not cover the years.
void write_weather(const fs::path& file) {
  const auto table = geo::read_table(davis_file());
  if (!table) throw std::runtime_error(to_text(table.issues().front()));
  std::ofstream out{file};
  const std::vector<std::string> names{"date", "prcp_mm", "tmax_c", "tmin_c"};
  out << "date,rain_mm,tmax_c,tmin_c\n";
  for (const auto& row : table.value().rows) {
    std::string line;
    for (const std::string& name : names)
      line += (line.empty() ? "" : ",") + row[column_of(table.value(), name)];
    out << line << '\n';
  }
}

void put_in_place(const fs::path& farm_json) {
  Json farm = Json::parse(std::ifstream{farm_json});
  farm["site"] = {
      {"latitude_deg", 38.54}, {"longitude_deg", -121.78}, {"elevation", "18 m"}, {"utc_offset_h", -8}};
  farm["season"]["planting_date"] = "2027-04-12";
  farm["season"]["cut_off"] = "2027-06-05";
  std::ofstream{farm_json} << farm.dump(1);
}

}  // namespace

farm::Problem record_farm() {
  const Folder folder;
  std::ofstream{folder.path / "table.csv"} << fields;
  write_weather(folder.path / "record.csv");
  const fs::path farm = folder.path / "farm";
  const auto made = farm::new_farm({.folder = farm,
                                    .table = folder.path / "table.csv",
                                    .boundaries = {},
                                    .weather = folder.path / "record.csv",
                                    .as_of = make_date(2026, 8, 16)});
  if (!made) throw std::runtime_error(to_text(made.issues().front()));
  put_in_place(farm / "farm.json");
  auto problem = farm::read(farm, {});
  if (!problem) throw std::runtime_error(to_text(problem.issues().front()));
  return std::move(problem).value();
}

}  // namespace aftercut::validation
