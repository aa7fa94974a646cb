#pragma once
// A planned region: region-plan.json, a summary for the terminal, a page with a map, a layer of fields, and
// how plan and bound came about over time.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/audit/audit.hpp"
#include "aftercut/core/result.hpp"
#include "aftercut/plan/region.hpp"

namespace aftercut::report {

/// How far the region was at some time of the run; not part of the plan.
struct RegionMoment {
  double seconds = 0.0;
  std::size_t looked_at = 0, planned = 0, farms = 0;
  double cost = 0.0;                       ///< of the plan as it stood; 0: there was none
  double planned_cost = 0.0, bound = 0.0;  ///< of the farms planned by then
  /// What is not proven yet, as a share of the plan: farms without a bound count with nothing.
  [[nodiscard]] double gap() const { return cost > 0.0 ? 1.0 - bound / cost : 1.0; }
  [[nodiscard]] double gap_of_planned() const {
    return planned_cost > 0.0 ? 1.0 - bound / planned_cost : 1.0;
  }
};

struct RegionShown {
  const plan::Region* region = nullptr;
  audit::Audit audit;
  std::string version;
  std::vector<RegionMoment> moments;
};

/// docs/schema/region-plan.schema.json; nothing of the moments.
std::string region_json(const RegionShown& shown);
/// Fits 100 columns.
std::string region_text(const RegionShown& shown);
/// Self-contained, without scripts: the map, shares, methods and farms.
std::string region_html(const RegionShown& shown);
std::string region_fields_geojson(const plan::Region& region);
std::string region_progress_csv(const std::vector<RegionMoment>& moments);
std::string region_progress_svg(const std::vector<RegionMoment>& moments, const std::string& currency);
/// All of them into `out`.
Result<std::filesystem::path> write_region(const RegionShown& shown, const std::filesystem::path& out);

}  // namespace aftercut::report
