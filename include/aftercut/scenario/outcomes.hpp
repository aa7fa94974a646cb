#pragma once
// What each method would bring on each field with the rest of the plan as it is: the plan dispatched with
// that one field switched.

#include <functional>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

struct OutcomeInput {
  const dispatch::Table* table = nullptr;
  const plan::Decision* decision = nullptr;
  std::vector<std::size_t> shown;  ///< years behind chances and quantiles
  int threads = 1;
  std::function<void(double)> progress;
};

/// [field][recipe]; impossible ones carry only their reasons.
std::vector<std::vector<plan::MethodOutcome>> outcomes(const OutcomeInput& input);

/// The last season day (weekly grid) on which the field's first step may wait and keep the wanted chance;
/// none: not even at once.
std::optional<int> last_safe_start(const OutcomeInput& input, std::size_t field);

}  // namespace aftercut::scenario
