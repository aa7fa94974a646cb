#pragma once
// Inside room planner: which histories behind a step stand for all that could be.

#include "histories.hpp"

namespace aftercut::planner {

/// The step lays the straw anew and the next one asks for dry straw. Straw is wet or dry by the day on which
/// it was laid: no other day can stand for it.
bool day_tells(const StepAsked& asked);

/// Of histories on these days, rising: one of each day where the day tells, else at most three, the
/// earliest, one between, the latest.
std::vector<std::size_t> standing_for_all(const StepAsked& asked, const std::vector<int>& days);

}  // namespace aftercut::planner
