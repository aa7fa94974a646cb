#pragma once
// The fall-backs of all fields of one kind, and of all kinds, put to the test: nothing that they hang on
// comes, one storm does, and the dispatch plays the rest (docs/rules-of-work.md, "When the others do not
// come").

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

struct FallBackInput {
  const dispatch::Table* table = nullptr;
  std::vector<std::size_t> shown;  ///< years behind chances
  int threads = 1;
};

/// Fills hangs_on of every field, fall_back_tests and fall_back_runs of a plan whose decision has been
/// played.
plan::PlannedYears with_fall_backs(plan::PlannedYears planned, const FallBackInput& input);

/// The tests that fail, with the fields and the week to use instead.
std::vector<plan::Trouble> late_fall_backs(const farm::Farm& farm, const plan::Plan& plan);

}  // namespace aftercut::scenario
