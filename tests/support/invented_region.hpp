#pragma once
// An invented region for tests and benchmarks: farm folders like the demo farm's, each with fields, soils,
// harvests and machines of its own, one weather record, shared limits.

#include <filesystem>

namespace aftercut::test {

struct InventedRegion {
  int farms = 3;
  int fields_a_farm = 25;  ///< in the mean: three fifths, all and seven fifths of it in turn
  double burn_day_ha_a_farm = 12.0, burn_season_ha_a_farm = 40.0, flow_m3_s_a_farm = 0.2;
};

/// Writes region.json, farms/, weather/ and burn-rules.json into `folder`. The same arguments write the same.
void write_invented_region(const std::filesystem::path& folder, const InventedRegion& what);

}  // namespace aftercut::test
