#pragma once
// Changes of the sound plan, each with the rule that the audit has to name.

#include <functional>
#include <vector>

#include "sound_plan.hpp"

namespace aftercut::test {

struct PlanChange {
  const char* rule;
  std::function<void(plan::PlannedYears&)> make;
};

/// What the plan says of the field's chosen method.
plan::MethodOutcome& chosen(plan::PlannedYears& planned, std::size_t field);
/// Index in the book of the locked problem. Throws when there is none.
int recipe_named(const std::string& id);
/// Makes each change on a copy of the sound plan; the audit with this problem names its rule.
void check_changes(const std::vector<PlanChange>& changes, const farm::Problem& problem);

}  // namespace aftercut::test
