#pragma once
// A region: farm folders that share burn area and canal flow (region.json, docs/region.md).

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"

namespace aftercut::farm {

/// What all farms of a region may use together; none: no limit beside the farms' own.
struct RegionLimits {
  std::optional<double> burn_day_ha;     ///< burned on one day
  std::optional<double> burn_season_ha;  ///< burned in one season
  std::optional<double> flow_m3_s;       ///< let out of the canal at one time
};

struct RegionFolder {
  std::string name, currency;
  std::vector<std::string> farms;  ///< folders, relative to the region's, in natural order
  RegionLimits limits;
  std::string authority;  ///< who limits the burn area
  std::string canal;      ///< whose flow is shared
};

/// The region's own file, not its farms. Issues: the file, its keys, folders without farm.json.
Result<RegionFolder> read_region(const std::filesystem::path& folder);

}  // namespace aftercut::farm
