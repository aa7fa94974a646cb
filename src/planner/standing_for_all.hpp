#pragma once
// Inside room planner: which histories behind a step stand for all that could be.

#include "histories.hpp"

namespace aftercut::planner {

/// The step lays the straw anew and the next one asks for dry straw. Straw is wet or dry by the day on which
/// it was laid: no other day can stand for it.
bool day_tells(const StepAsked& asked);

struct Standing {
  std::size_t index = 0;
  std::optional<int> days = {};  ///< it is looked at for so many days only; none: to the end
};
/// Of histories in the order of their days the earliest, one between and the latest; where the day tells one
/// of each other day too, for as long as it tells.
std::vector<Standing> standing_for_all(const StepAsked& asked, const std::vector<History>& histories);

}  // namespace aftercut::planner
