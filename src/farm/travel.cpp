#include "aftercut/farm/travel.hpp"

#include <cmath>

#include "aftercut/geo/network.hpp"

namespace aftercut::farm {
namespace {

constexpr double neighbours_m = 30.0;   // over a levee and a ditch. Source: Neighbours (assumed)
constexpr double road_reach_m = 150.0;  // a field's gate is so near to its roads. Source: RoadReach (assumed)
constexpr double metres_per_km = 1000.0;

std::vector<geo::Path> lines_of(const RoadMap& map, bool with_soft) {
  std::vector<geo::Path> lines;
  for (const Road& r : map.roads)
    if (r.state == RoadState::passable || (with_soft && r.state == RoadState::soft)) lines.push_back(r.line);
  return lines;
}

Access access_of(double hard_m, double any_m) {
  if (std::isfinite(hard_m)) return Access::hard;
  return std::isfinite(any_m) ? Access::soft : Access::none;
}

}  // namespace

Travel ways_between(const std::vector<geo::Shape>& fields, const RoadMap* roads, double detour) {
  Travel travel;
  const std::size_t n = fields.size();
  std::vector<std::vector<double>> by_road;
  if (roads != nullptr) {
    std::vector<geo::Shape> stops = fields;
    stops.push_back(geo::Shape{{}, {}, {roads->yard}});
    by_road = geo::ways_along(lines_of(*roads, true), stops, road_reach_m);
    const auto hard = geo::ways_along(lines_of(*roads, false), stops, road_reach_m);
    for (std::size_t f = 0; f < n; ++f) travel.access.push_back(access_of(hard[f][n], by_road[f][n]));
  }
  travel.km.assign(n, std::vector<double>(n, 0.0));
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = a + 1; b < n; ++b) {
      const double straight = geo::distance(fields[a], fields[b]).value();
      const bool road = !by_road.empty() && straight > neighbours_m && std::isfinite(by_road[a][b]);
      const double metres = road ? by_road[a][b] : straight * (straight > neighbours_m ? detour : 1.0);
      travel.km[a][b] = travel.km[b][a] = metres / metres_per_km;
    }
  return travel;
}

std::vector<std::vector<StackWay>> stack_ways(const std::vector<geo::Shape>& fields,
                                              const std::vector<geo::Shape>& places, const RoadMap* roads,
                                              double detour) {
  const std::size_t n = fields.size();
  std::vector<geo::Shape> stops = fields;
  stops.insert(stops.end(), places.begin(), places.end());
  const auto by_road = [&](bool with_soft) {
    return geo::ways_from_middles(roads == nullptr ? std::vector<geo::Path>{} : lines_of(*roads, with_soft),
                                  stops, road_reach_m);
  };
  const auto hard = by_road(false), any = by_road(true);
  std::vector<std::vector<StackWay>> ways(n, std::vector<StackWay>(places.size()));
  for (std::size_t f = 0; f < n; ++f)
    for (std::size_t s = 0; s < places.size(); ++s) {
      const double straight = geo::distance(geo::middle_of(fields[f]), places[s]).value();
      StackWay& way = ways[f][s];
      if (roads != nullptr && geo::distance(fields[f], places[s]).value() <= neighbours_m)
        way = {straight, WayKind::beside};
      else if (std::isfinite(hard[f][n + s]))
        way = {hard[f][n + s], WayKind::hard_road};
      else if (std::isfinite(any[f][n + s]))
        way = {any[f][n + s], WayKind::soft_road};
      else
        way = {detour * straight, WayKind::straight};
    }
  return ways;
}

}  // namespace aftercut::farm
