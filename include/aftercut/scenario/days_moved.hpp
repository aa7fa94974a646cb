#pragma once
// What a plan made again moves without changing a method: the days of a field's next work and of its seedbed.

#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

struct DaysMovedInput {
  const farm::Farm* farm = nullptr;
  const plan::Plan* plan = nullptr;  ///< with its decision, its first day and `again`
  const std::vector<plan::YearRun>* runs = nullptr;
  const std::vector<plan::YearRun>* stood = nullptr;  ///< the plan that stood, in the same years
  const std::vector<std::size_t>* shown = nullptr;    ///< the years that the days are typical of
};

/// Fields whose method stays and that are not ready yet, where a day moves by `day_move_told` or more.
std::vector<plan::DayMove> days_moved(const DaysMovedInput& input);

}  // namespace aftercut::scenario
