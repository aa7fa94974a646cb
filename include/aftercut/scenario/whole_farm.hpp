#pragma once
// What a set of played years comes to for the whole farm.

#include <optional>
#include <vector>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/dispatch/table.hpp"
#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/what_if.hpp"

namespace aftercut::scenario {

/// A decision played in every year of the table.
struct PlayedInAll {
  std::vector<plan::YearRun> runs;
  std::vector<double> chance;  ///< [field] of a ready seedbed by planting, shown years; 0 without a method
};
PlayedInAll played_in_all(const dispatch::Table& table, const plan::Decision& decision, int threads,
                          const dispatch::RunOptions& options = {});

/// Mean over the runs in whole cents, out of pocket; `full`: ownership and own labour too.
std::int64_t mean_cost(const std::vector<plan::YearRun>& runs, bool full);

/// `chance`: [field] of a ready seedbed by planting.
plan::WholeFarm whole_farm(const farm::Farm& farm, const std::vector<plan::YearRun>& runs,
                           const std::vector<double>& chance);
plan::WholeFarm whole_farm(const farm::Farm& farm, const plan::PlannedYears& planned);

}  // namespace aftercut::scenario
