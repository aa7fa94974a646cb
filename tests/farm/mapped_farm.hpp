#pragma once
// A small farm with a yield map of points that a test draws.

#include <fmt/format.h>

#include <functional>
#include <string>
#include <vector>

#include "small_farm.hpp"

namespace aftercut::test {

/// Field A of the small farm: longitude -121.900 to -121.894, latitude 39.394 to 39.400.
inline constexpr double a_west = -121.9, a_south = 39.394, a_size = 0.006;

/// Points on an even lattice over field A, n along each side, at the middles of n x n equal parts. The yield
/// is a function of the shares of the way from west to east and from south to north.
inline std::vector<std::string> lattice(int n, const std::function<double(double, double)>& kg_per_ha) {
  std::vector<std::string> rows;
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) {
      const double u = (i + 0.5) / n, v = (j + 0.5) / n;
      rows.push_back(
          fmt::format("{:.8f},{:.8f},{:.3f},14", a_west + u * a_size, a_south + v * a_size, kg_per_ha(u, v)));
    }
  return rows;
}

inline std::string point_table(const std::vector<std::string>& rows) {
  return fmt::format("lon,lat,yield_kg_per_ha,moisture_percent\n{}\n", fmt::join(rows, "\n"));
}

/// The small farm in metric units, with these points as its map.
inline FarmFiles mapped_farm(const std::vector<std::string>& rows) {
  FarmFiles files = small_farm();
  files.farm["units"] = "SI";
  files.farm["yield_map"] = {{"file", "map.csv"}};
  only(files, "map.csv", point_table(rows));
  return files;
}

inline const farm::YieldPattern& pattern_of_a(const farm::Problem& p) {
  return p.farm.yield_map.patterns.at(0).value();
}

}  // namespace aftercut::test
