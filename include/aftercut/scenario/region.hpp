#pragma once
// A region planned farm by farm (docs/region.md): every farm is looked at, what they share is shared out,
// then each farm is planned within its shares and bounded. No more farms are held at a time than there are
// threads.

#include <functional>

#include "aftercut/farm/region.hpp"
#include "aftercut/scenario/region_farm.hpp"

namespace aftercut::scenario {

using Fits = std::vector<std::vector<farm::FieldFit>>;

/// How far a region is: after each farm.
struct RegionStep {
  std::size_t looked_at = 0, planned = 0, farms = 0;
  double cents = 0.0;          ///< of the plan as it stands, a year's mean; 0: not every farm is looked at
  double planned_cents = 0.0;  ///< of the farms that are planned
  double bound_cents = 0.0;    ///< of the same farms: no plan of theirs costs less
};

struct RegionInput {
  const farm::RegionFolder* folder = nullptr;
  /// The farm with this index. `fits`: as found when it was looked at; null: to be worked out.
  std::function<Result<farm::Problem>(std::size_t farm, const Fits* fits)> read;
  std::uint64_t seed = 1;
  int threads = 1;
  int look_changes = 200;  ///< judged by the search when a farm is looked at
  int plan_changes = 300;  ///< and when it is planned
  int bound_rounds = 2;
  std::function<void(const RegionStep&)> step;  ///< told in turn, never two at a time
};

/// Issues: those of every farm, and farms in another currency.
Result<plan::Region> plan_region(const RegionInput& input);

}  // namespace aftercut::scenario
