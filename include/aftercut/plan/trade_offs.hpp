#pragma once
// Plans of one farm that weigh cost, readiness, greenhouse gases and straw taken off differently, as values.

#include <string>
#include <vector>

#include "aftercut/plan/what_if.hpp"

namespace aftercut::plan {

/// What the search of a plan counted beside money out of pocket.
struct Weights {
  double straw_per_t = 0.0;  ///< money for each tonne of straw baled, on top of its price
  double late_times = 1.0;   ///< planting late and not at all count so many times
  double co2e_per_t = 0.0;   ///< money for each tonne of CO2 equivalents, by the mean of each kind of method
  friend bool operator==(const Weights&, const Weights&) = default;
};

struct WeighedPlan {
  std::string name;  ///< short and fixed, also its folder
  Weights weights;
  PlannedYears planned;  ///< played at the farm's own prices
  WholeFarm figures;
  double co2e_t = 0.0;  ///< mean a year
  bool dominated =
      false;  ///< another plan is as good in all four and better in one; only the base is kept then
};

struct TradeOffs {
  std::vector<WeighedPlan> plans;           ///< the base first, then by cost
  int searched = 0, same = 0, dropped = 0;  ///< searches; plans found twice; dominated ones left out
};

}  // namespace aftercut::plan
