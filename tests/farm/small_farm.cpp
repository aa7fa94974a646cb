#include "small_farm.hpp"

#include <algorithm>
#include <tuple>

#include "catch2/catch.hpp"
#include "scratch.hpp"

namespace aftercut::test {
namespace {

constexpr double west = -121.9, north = 39.4, cell = 0.003;

struct Box {
  std::size_t x0 = 1000, x1 = 0, y0 = 1000, y1 = 0;
};

Json polygon(const Box& b) {
  const double x0 = west + cell * static_cast<double>(b.x0), x1 = west + cell * static_cast<double>(b.x1 + 1);
  const double y0 = north - cell * static_cast<double>(b.y1 + 1),
               y1 = north - cell * static_cast<double>(b.y0);
  return {{"type", "Polygon"}, {"coordinates", {{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}}}};
}

}  // namespace

Json drawn_fields(const std::vector<std::string>& map) {
  std::map<char, Box> boxes;
  for (std::size_t y = 0; y < map.size(); ++y)
    for (std::size_t x = 0; x < map[y].size(); ++x) {
      if (map[y][x] == '.') continue;
      Box& b = boxes[map[y][x]];
      b = {std::min(b.x0, x), std::max(b.x1, x), std::min(b.y0, y), std::max(b.y1, y)};
    }
  Json features = Json::array();
  for (const auto& [letter, box] : boxes)
    features.push_back(
        {{"type", "Feature"}, {"properties", {{"id", std::string(1, letter)}}}, {"geometry", polygon(box)}});
  return {{"type", "FeatureCollection"}, {"features", features}};
}

std::string weather_csv(Date first, int days) {
  std::string text = "date,tmin_c,tmax_c,rain_mm\n";
  for (int d = 0; d < days; ++d)
    text += iso(first + d) + (d % 5 == 0 ? ",6.0,16.0,4.0\n" : ",5.0,18.0,0.0\n");
  return text;
}

Json& field(FarmFiles& files, const std::string& id) {
  for (Json& f : files.fields["features"])
    if (f["properties"]["id"] == id) return f["properties"];
  FAIL("no field " + id);
  return files.fields;
}

FarmFiles small_farm() {
  FarmFiles files;
  files.farm = Json::parse(R"({
   "name": "Three checks", "currency": "USD", "units": "US", "as_of": "2026-09-25",
   "season": {"first": "2026-09-01", "last": "2027-06-15", "planting_date": "2027-05-01", "cut_off": "2027-06-01"},
   "site": {"latitude_deg": 39.4, "longitude_deg": -121.9, "elevation": "80 ft", "utc_offset_h": -8},
   "fields": {"file": "fields.geojson"},
   "soils": [{"name": "basin clay", "texture": "clay", "clay_percent": 55}],
   "tractors": [{"id": "T2", "pto_power": "225 hp", "drive": "track", "price": "310000 USD"},
                {"id": "T10", "pto_power_kw": 90}],
   "implements": [
    {"id": "D1", "kind": "disk", "width": "21 ft", "speed": "5 mph", "depth": "6 in", "price": "60000 USD"},
    {"id": "B1", "kind": "baler", "width": "16 ft", "area_per_day": "60 acre/day",
     "hire": {"windows": [{"from": "2026-10-01", "to": "2026-10-31"}], "per_mass": "25 USD/t", "call_out": "400 USD"}}],
   "operators": [{"id": "O2", "skills": ["burning"], "wage": "24 USD/h"}, {"id": "O1", "paid": false}],
   "weather": {"file": "weather.csv"},
   "prices": {"diesel": "3.90 USD/gal", "grain": "0.20 USD/lb", "unplanted": "450 USD/acre"}})");
  files.fields = drawn_fields({"AABB",  //
                               "AACC"});
  field(files, "A")
      .update({{"harvest", "2026-09-18"},
               {"cut", "yes"},
               {"lay", "windrow"},
               {"yield", "9200 lb/acre"},
               {"moisture_percent", 18}});
  field(files, "B").update({{"harvest", "2026-10-02"}, {"yield_kg_per_ha", 10000}, {"moisture_percent", 14}});
  field(files, "C").update({{"harvest", "2026-10-10"}, {"straw_load", "6.9 t/ha"}});
  files.weather = weather_csv(make_date(2020, 9, 1), 730);
  return files;
}

void only(FarmFiles& files, const std::string& name, std::string text) {
  files.others[name] = std::move(text);
}

Result<farm::Problem> read_farm(const FarmFiles& files, const farm::ReadOptions& options) {
  const Scratch folder{"small"};
  std::ignore = folder.file("farm.json", files.farm.dump(1));
  std::ignore = folder.file("fields.geojson", files.fields.dump());
  std::ignore = folder.file("weather.csv", files.weather);
  for (const auto& [name, text] : files.others) std::ignore = folder.file(name, text);
  return farm::read(folder.path, options);
}

farm::Problem sound(const FarmFiles& files, const farm::ReadOptions& options) {
  const Result<farm::Problem> read = read_farm(files, options);
  if (!read) FAIL(all_text(read.issues()));
  return read.value();
}

const farm::Field& field_of(const farm::Problem& problem, const std::string& id) {
  for (const farm::Field& f : problem.farm.fields)
    if (f.id.value == id) return f;
  FAIL("no field " + id);
  return problem.farm.fields.front();
}

}  // namespace aftercut::test
