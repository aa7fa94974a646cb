#include "invented_region.hpp"

#include <fmt/format.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "aftercut/core/date.hpp"
#include "aftercut/core/random.hpp"

namespace aftercut::test {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr double m_per_degree = 111000.0, latitude = 38.6, longitude = -141.0;
constexpr double farm_apart_m = 5000.0;
constexpr int farms_in_a_row = 20;

Json read_json(const fs::path& file) {
  std::ifstream in{file};
  return Json::parse(in);
}

void write_text(const fs::path& file, const std::string& text) {
  fs::create_directories(file.parent_path());
  std::ofstream{file} << text;
}

Json point(double x_m, double y_m) {
  const double lat = latitude + y_m / m_per_degree;
  const double lon = longitude + x_m / (m_per_degree * std::cos(lat * 3.14159265358979 / 180.0));
  return {std::round(lon * 1e7) / 1e7, std::round(lat * 1e7) / 1e7};
}

std::string day(int days_after_first, const char* year_month_first) {
  const Date first = *parse_iso_date(year_month_first);
  return iso(first + days_after_first);
}

/// A field of one farm: four corners, each drawn in a little, and what the layer tells of it.
Json field(int k, double x_m, double y_m, double wide_m, double deep_m, Draws& d) {
  const auto in = [&] { return (3.0 + 10.0 * d.uniform()); };
  Json ring = Json::array();
  ring.push_back(point(x_m + in(), y_m + in()));
  ring.push_back(point(x_m + wide_m - in(), y_m + in()));
  ring.push_back(point(x_m + wide_m - in(), y_m + deep_m - in()));
  ring.push_back(point(x_m + in(), y_m + deep_m - in()));
  ring.push_back(ring.front());
  const int harvest = static_cast<int>(40.0 * d.uniform());
  const bool fallow = d.uniform() < 0.04;
  const char* lays[] = {"windrow", "spread", "chopped"};
  Json p{{"id", fmt::format("P{}", k + 1)},
         {"name", fmt::format("Parcel {}", k + 1)},
         {"soil", d.uniform() < 0.65 ? "clay" : "silty clay"},
         {"cut", harvest < 30},
         {"harvest", day(harvest, "2026-09-10")},
         {"yield_t_per_ha", std::round(10.0 * (8.2 + 1.8 * d.uniform())) / 10.0},
         {"moisture_percent", 14.0},
         {"lay", harvest < 30 ? Json(lays[static_cast<int>(3.0 * d.uniform())]) : Json(nullptr)},
         {"cut_height_cm", 30},
         {"ground", "firm"},
         {"next_use", fallow ? "fallow" : "rice"},
         {"planting_date", fallow ? Json(nullptr) : Json(day(harvest / 2, "2027-04-25"))},
         {"cut_off", fallow ? Json(nullptr) : Json("2027-06-03")},
         {"planting_order", k + 1},
         {"can_flood", d.uniform() < 0.85},
         {"holds_water", d.uniform() < 0.9},
         {"disease_finding", Json(d.uniform() < 0.3)}};
  return {
      {"type", "Feature"}, {"properties", p}, {"geometry", {{"type", "Polygon"}, {"coordinates", {ring}}}}};
}

/// Rows of fields beside each other.
Json fields(int count, double x_m, double y_m, Draws& d) {
  Json features = Json::array();
  double across = 0.0, up = 0.0, deep = 380.0 + 200.0 * d.uniform();
  for (int k = 0; k < count; ++k) {
    const double wide = 250.0 + 500.0 * d.uniform();
    if (across + wide > 3600.0) {
      across = 0.0;
      up += deep;
      deep = 380.0 + 200.0 * d.uniform();
    }
    features.push_back(field(k, x_m + across, y_m + up, wide, deep, d));
    across += wide;
  }
  return {{"type", "FeatureCollection"}, {"features", features}};
}

Json samples(const Json& layer) {
  Json values = Json::array();
  for (const Json& f : layer["features"])
    if (f["properties"]["disease_finding"] == true)
      values.push_back({{"id", f["properties"]["id"]},
                        {"disease_samples", {{{"disease", "stem rot"}, {"share", "22 %"}}}}});
  return values;
}

Json places(double x_m, double y_m) {
  const Json home{{"type", "Feature"},
                  {"properties", {{"name", "farm house"}, {"kind", "home"}}},
                  {"geometry", {{"type", "Point"}, {"coordinates", point(x_m - 500.0, y_m - 500.0)}}}};
  return {{"type", "FeatureCollection"}, {"features", {home}}};
}

/// A second of what a large farm is short of.
void add_machines(Json& farm) {
  const auto again = [](Json& list, const char* id, const char* new_id) {
    for (const Json& entry : Json(list))
      if (entry["id"] == id) {
        Json copy = entry;
        copy["id"] = new_id;
        if (copy.contains("name")) copy["name"] = new_id;
        list.push_back(copy);
      }
  };
  again(farm["tractors"], "T2", "T5");
  again(farm["implements"], "disk 1", "disk 3");
  again(farm["operators"], "Bo", "Dee");
}

void write_farm(const fs::path& folder, const Json& demo, int k, int count) {
  Draws d{7, stream_of("invented region"), static_cast<std::uint64_t>(k)};
  const double x_m = farm_apart_m * (k % farms_in_a_row), y_m = farm_apart_m * (k / farms_in_a_row);
  Json farm = demo;
  for (const char* key : {"levees", "roads", "yield_map", "stacks", "tickets"}) farm.erase(key);
  farm["name"] = fmt::format("Farm {} (invented)", k + 1);
  const Json layer = fields(count, x_m, y_m, d);
  farm["field_values"] = samples(layer);
  farm["burn_rules"] = "../../burn-rules.json";
  farm["weather"]["file"] = "../../weather/record.csv";
  farm["site"]["latitude_deg"] = point(x_m, y_m)[1];
  farm["site"]["longitude_deg"] = point(x_m, y_m)[0];
  farm["operators"][0]["paid"] = true;
  if (count > 28) add_machines(farm);
  write_text(folder / "farm.json", farm.dump(1));
  write_text(folder / "fields.geojson", layer.dump());
  write_text(folder / "places.geojson", places(x_m, y_m).dump());
}

}  // namespace

void write_invented_region(const fs::path& folder, const InventedRegion& what) {
  const fs::path source{AFTERCUT_SOURCE_DIR};
  const Json demo = read_json(source / "fields/demo/farm.json");
  fs::create_directories(folder / "weather");
  constexpr auto over = fs::copy_options::overwrite_existing;
  fs::copy_file(source / "weather/valley-30-years.csv", folder / "weather/record.csv", over);
  fs::copy_file(source / "fields/demo/burn-rules.json", folder / "burn-rules.json", over);
  const auto n = static_cast<double>(what.farms);
  int left = what.farms * what.fields_a_farm;
  for (int k = 0; k < what.farms; ++k) {
    const int count = k + 1 == what.farms ? left : std::max(1, what.fields_a_farm * (3 + 2 * (k % 3)) / 5);
    left -= count;
    write_farm(folder / fmt::format("farms/F{:03}", k + 1), demo, k, count);
  }
  const Json region{{"name", "Invented region"},
                    {"currency", "USD"},
                    {"farms", "farms"},
                    {"burning",
                     {{"authority", "the Tern Basin burn desk (invented)"},
                      {"area_per_day", fmt::format("{:g} ha", n * what.burn_day_ha_a_farm)},
                      {"area_per_season", fmt::format("{:g} ha", n * what.burn_season_ha_a_farm)}}},
                    {"canal",
                     {{"name", "Long Canal (invented)"},
                      {"most_flow", fmt::format("{:g} m3/s", n * what.flow_m3_s_a_farm)}}}};
  write_text(folder / "region.json", region.dump(1));
}

}  // namespace aftercut::test
