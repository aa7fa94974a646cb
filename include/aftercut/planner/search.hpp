#pragma once
// Room planner, lead header. Purpose: to choose. Takes a dispatch table; gives a decision (a method for each
// field, two priority lists). Leaves out physics and what the choice means. The search: from what is cheapest
// alone a few walks change one field's method or place in a list at a time, judged by quick runs of the
// search years (walk.hpp); the dispatch decides between their ends. Where the farm's wanted chances bind,
// what is short of them counts before money. Budget in changes judged, never in seconds.

#include <functional>
#include <optional>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/planner/walk.hpp"
#include "aftercut/planner/wishes.hpp"

namespace aftercut::planner {

/// The years of the problem split in two: even places search, odd places are shown. One year: both.
struct Folds {
  std::vector<std::size_t> search, shown;
  bool in_sample = false;
};
Folds fold(std::size_t years);

/// Heat of a walk that goes on from a plan that is good already: on the demo farm under eight changes it ends
/// two to five times as far below the plan kept as the usual one does.
inline constexpr double going_on_heat = 0.001;

struct SearchInput {
  const dispatch::Table* table = nullptr;
  std::vector<std::size_t> years;  ///< that the search plays
  std::uint64_t seed = 1;
  int threads = 1;
  int evaluations = 0;  ///< changes that the walks judge together
  std::function<void(double)> progress;
  std::optional<plan::Decision> start = {};  ///< goes on from it; none: from what is cheapest alone
  double heat = first_heat;                  ///< of the walks at their start, of the start's cost
};

struct Found {
  plan::Decision decision;
  std::int64_t cost = 0;            ///< sum over the search years, cents
  double short_ha_years = 0.0;      ///< of the wanted chances, where these bind
  std::vector<int> cheapest_alone;  ///< [field] what would be chosen if nothing were shared; with a start:
                                    ///< its methods
  int evaluations = 0;
  std::int64_t year_runs = 0;  ///< quick ones, in part or whole
};

/// Never worse, by what it counts, than the start.
Found search(const SearchInput& input);

/// [field] what would be chosen if nothing were shared.
std::vector<int> cheapest_alone(const SearchInput& input);

/// What each decision is short of the wishes, and its cost, summed over the years; in parallel.
std::vector<Merit> merits_of(const dispatch::Table& table, const std::vector<plan::Decision>& decisions,
                             const std::vector<std::size_t>& years, int threads,
                             const LeastReady& least_ready, const dispatch::RunOptions& options = {});

/// Sum over the years of the whole farm's out-of-pocket cost for each decision, worked out in parallel.
std::vector<std::int64_t> costs_of(const dispatch::Table& table, const std::vector<plan::Decision>& decisions,
                                   const std::vector<std::size_t>& years, int threads,
                                   const dispatch::RunOptions& options = {});

}  // namespace aftercut::planner
