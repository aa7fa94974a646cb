#pragma once
// What each method would bring on each field with the rest of the plan as it is: the plan dispatched with
// that one field switched.

#include <functional>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/plan/plan.hpp"
#include "aftercut/scenario/amounts.hpp"

namespace aftercut::scenario {

struct OutcomeInput {
  const dispatch::Table* table = nullptr;
  const plan::Decision* decision = nullptr;
  std::vector<std::size_t> shown;  ///< years behind chances and quantiles
  int threads = 1;
  std::function<void(double)> progress;
};

/// The whole farm with one method on one field.
struct FarmOutcome {
  std::vector<std::int64_t> cost_by_year;  ///< out of pocket, cents
  plan::CostParts parts;                   ///< mean over years, cents
  Amounts amounts;                         ///< mean over years
  int fell_back = 0;                       ///< years in which the method went over to its fall-back
  plan::DaysNotBurned not_burned;          ///< summed over those years
};

/// [field][recipe]; impossible ones carry only their reasons.
struct Outcomes {
  std::vector<std::vector<plan::MethodOutcome>> methods;
  std::vector<std::vector<FarmOutcome>> farm;
};
Outcomes outcomes(const OutcomeInput& input);

}  // namespace aftercut::scenario
