#pragma once
// What a chosen method hangs on and what its field owes when none of it comes: own reading of
// docs/rules-of-work.md, "When the others do not come".

#include <optional>
#include <set>
#include <vector>

#include "facts.hpp"

namespace aftercut::audit {

/// One trigger of a field's method as the rules have it.
struct OwnTrigger {
  plan::Trigger trigger = plan::Trigger::burn_call;
  int method = plan::none;      ///< takes over
  std::optional<int> rule_day;  ///< of the recipe
  std::vector<int> brings;      ///< operations that do not happen without it
  std::vector<int> implements;  ///< that are not there without it
  bool spring = false;          ///< a burn that waits for the end of winter
};
std::vector<OwnTrigger> triggers_of(const farm::Farm& farm, int field, int recipe);

/// What has to be done in time by a field that does without.
struct Owed {
  int over_by = plan::none;  ///< season day; none: no step asks for a day
  bool seedbed = false;      ///< all is left to the spring passes
};
Owed owed_by(const farm::Farm& farm, int field, int recipe, const plan::Instead& instead);

/// In a plain year the method did without the trigger.
bool missed_in(const OwnTrigger& trigger, int field, const plan::YearRun& run, const plan::FieldRun& lived);

/// The storm on a day, and a year with it.
plan::Storm storm_on(const weather::Years& record, const farm::StormSettings& settings, int day);
weather::Year stormy(weather::Year year, const weather::Years& record, const plan::Storm& storm, int day);

}  // namespace aftercut::audit
