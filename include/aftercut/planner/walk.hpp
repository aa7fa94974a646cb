#pragma once
// One walk of the search: a decision that changes move by move, judged by quick runs of the search years.

#include <cstdint>
#include <functional>
#include <vector>

#include "aftercut/core/random.hpp"
#include "aftercut/dispatch/quick_runs.hpp"
#include "aftercut/planner/wishes.hpp"

namespace aftercut::planner {

/// A walk from what is cheapest alone has far to go.
inline constexpr double first_heat = 0.004;

/// What a search asks of one walk.
struct WalkInput {
  const dispatch::Table* table = nullptr;
  std::vector<std::size_t> years;
  plan::Decision start;
  int moves = 0;
  bool orders_only = false;     ///< methods stay as they are
  double heat = first_heat;     ///< at the start, of the start's cost
  LeastReady least_ready = {};  ///< empty: money alone counts
  Draws draws{0, 0};
  std::function<void(double)> progress;  ///< share done
};

struct Walked {
  plan::Decision decision;      ///< the best met
  double cents = 0.0;           ///< its quick cost, sum over the years
  double short_ha_years = 0.0;  ///< by quick runs
  std::int64_t runs = 0;        ///< quick year runs, in part or whole
  std::int64_t skipped = 0;     ///< year runs that a move could not change
};

/// The same input gives the same walk.
Walked walk(const WalkInput& input);

}  // namespace aftercut::planner
