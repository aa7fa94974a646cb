#pragma once
// A plan tried out: searched on half of the weather years, played on the other half and on invented years
// (docs/trial.md).

#include <optional>

#include "aftercut/plan/trial.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/weather/generator.hpp"

namespace aftercut::scenario {

struct TrialOptions {
  SearchOptions search;
  int invented_years = 200;
  std::optional<weather::GeneratorParameters> parameters = {};  ///< none: fitted to the farm's own record
};

/// At least two weather years.
plan::Trial try_plan(const farm::Problem& problem, const TrialOptions& options);

}  // namespace aftercut::scenario
