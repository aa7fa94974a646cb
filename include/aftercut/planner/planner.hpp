#pragma once
// Room planner, lead header. Purpose: to choose. Takes a dispatch table; gives a decision (method by field,
// two priority lists) found by a search on part of the years, and the outcome of every method on every field.
// Leaves out physics.

#include <cstdint>
#include <functional>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::planner {

struct SearchOptions {
  std::uint64_t seed = 1;
  int threads = 1;
  int evaluations = 1200;                ///< budget of whole-farm, search-years runs
  std::function<void(double)> progress;  ///< 0 to 1; may be empty
};

/// The years of the problem split in two: even places search, odd places are shown. One year: both.
struct Folds {
  std::vector<std::size_t> search, shown;
  bool in_sample = false;
};
Folds fold(std::size_t years);

/// Searches, then plays the decision in every year and works out each method's outcome with that one field
/// switched.
plan::PlannedYears make_plan(const farm::Problem& problem, const SearchOptions& options);

}  // namespace aftercut::planner
