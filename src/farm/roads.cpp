// Farm roads and the ways between fields.

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/ids.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

const std::vector<std::string> road_states{"passable", "soft", "closed"};

RoadState state_of(const Object& part, const geo::Layer& layer, const geo::Feature& f,
                   const std::optional<std::string>& column) {
  const std::string word = cell_of(f, column);
  if (word.empty()) return RoadState::passable;
  const auto at = std::find(road_states.begin(), road_states.end(), word);
  if (at != road_states.end()) return static_cast<RoadState>(at - road_states.begin());
  part.faults().add(
      {layer.file, fmt::format("feature {}, column {}", f.row, *column), in_quotes(word),
       "one of " + listed(road_states),
       did_you_mean(word, road_states, "write one of these words, or leave it empty: passable")});
  return RoadState::passable;
}

std::vector<Road> roads_in(const Object& part, const geo::Layer& layer) {
  const auto state = column_for(part, layer, "state", false), name = column_for(part, layer, "name", false);
  std::vector<Road> roads;
  for (const geo::Feature& f : layer.features) {
    const RoadState s = state_of(part, layer, f, state);
    for (const geo::Path& line : f.shape.lines) roads.push_back({cell_of(f, name), s, line});
  }
  std::sort(roads.begin(), roads.end(), [](const Road& a, const Road& b) { return a.line < b.line; });
  if (roads.empty())
    part.faults().add({layer.file, "features", "no line", "roads as lines", "draw the roads as lines"});
  return roads;
}

geo::Point yard_of(const Object& part) {
  const Object yard = part.child("yard");
  return {yard.number("longitude_deg", {-180.0, 180.0}).value_or(0.0),
          yard.number("latitude_deg", {-90.0, 90.0}).value_or(0.0)};
}

std::vector<std::string> access_notes(const Farm& farm) {
  std::vector<std::string> soft, none;
  for (std::size_t f = 0; f < farm.travel.access.size(); ++f) {
    if (farm.travel.access[f] == Access::soft) soft.push_back(farm.fields[f].id.value);
    if (farm.travel.access[f] == Access::none) none.push_back(farm.fields[f].id.value);
  }
  std::vector<std::string> notes;
  if (!soft.empty())
    notes.push_back(fmt::format(
        "Loaded wagons leave {} over soft roads only: none for {} days after a day with more than "
        "{:g} mm of rain",
        listed(soft), farm.travel.soft_days, farm.travel.soft_rain_mm));
  if (!none.empty())
    notes.push_back("No drawn road leads from the yard to " + listed(none) +
                    ": straight distance and a detour are counted, and loaded wagons keep out after rain");
  return notes;
}

}  // namespace

RoadsRead read_roads(const Object& top, const Folder& folder) {
  if (!top.has("roads")) return {};
  const Object part = top.child("roads");
  const auto layer = open_layer(part, folder);
  if (!layer) return {};
  return {RoadMap{roads_in(part, *layer), yard_of(part)},
          Farm::Input{layer->file, sha256_hex(canonical_rows(*layer))}};
}

Farm with_ways(Farm farm, const Object& top, const std::optional<RoadMap>& roads) {
  std::vector<geo::Shape> shapes;
  for (const Field& f : farm.fields) {
    if (f.invented_shape) return farm;  // rectangles side by side say nothing of the ways
    shapes.push_back(f.shape);
  }
  farm.travel = ways_between(shapes, roads ? &*roads : nullptr, farm.work_day.detour);
  farm.roads = roads;
  const Object part = top.child("roads");
  farm.travel.soft_rain_mm =
      part.quantity("soft_rain", "mm", {0.0, 200.0}).value_or(farm.travel.soft_rain_mm);
  farm.travel.soft_days = part.whole("soft_days", 0, 30).value_or(farm.travel.soft_days);
  const auto notes = access_notes(farm);
  farm.notes.insert(farm.notes.end(), notes.begin(), notes.end());
  return farm;
}

}  // namespace aftercut::farm
