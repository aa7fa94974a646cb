#pragma once
// A plan tried out, as trial.json's text and as a table for the terminal.

#include <string>

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/trial.hpp"

namespace aftercut::report {

struct TrialShown {
  const farm::Problem* problem = nullptr;
  const plan::Trial* trial = nullptr;
  std::string version;
  std::uint64_t seed = 1;
  int evaluations = 0;
  std::string parameters;  ///< file of the generator's parameters; empty: fitted to the farm's record
};

/// docs/schema/trial.schema.json.
std::string trial_json(const TrialShown& shown);
/// A table that fits 100 columns, then what it means in words.
std::string trial_text(const TrialShown& shown);

}  // namespace aftercut::report
