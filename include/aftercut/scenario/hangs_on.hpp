#pragma once
// What each chosen method hangs on beside the farm's own machines and people, and what its field does
// without.

#include <optional>
#include <set>
#include <vector>

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/fall_backs.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

/// The trigger that the recipe's own fall-back names first, then water, then other hired outfits.
std::vector<plan::HangsOn> hangs_on(const dispatch::Table& table, std::size_t field, int recipe);

/// What the field does when none of these triggers comes, from the day on.
plan::Instead without(const dispatch::Table& table, std::size_t field, int recipe,
                      const std::set<plan::Trigger>& triggers, int day);

/// [implement] never there when these triggers of the field do not come.
std::vector<int> implements_missed(const dispatch::Table& table, std::size_t field, int recipe,
                                   const std::set<plan::Trigger>& triggers);

/// What a field has to have done when it does without.
struct Deadline {
  std::optional<int>
      straw_over;      ///< season day by which its steps before spring are over; none: no such step
  bool ready = false;  ///< its straw is left to the spring: the seedbed ready by planting
};
Deadline deadline_of(const dispatch::Table& table, std::size_t field, int recipe,
                     const plan::Instead& instead);
/// The fall-back was done in time.
bool in_time(const Deadline& deadline, const plan::FieldRun& run);

/// The field's method went without the trigger in this run.
bool went_without(const dispatch::Table& table, std::size_t field, int recipe, plan::Trigger trigger,
                  const plan::YearRun& run);

}  // namespace aftercut::scenario
