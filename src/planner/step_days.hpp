#pragma once
// Inside room planner: the days on which a step may be worked, whatever happens on other fields.

#include "histories.hpp"

namespace aftercut::planner {

int first_day(const StepAsked& asked);
/// None later.
int last_day(const StepAsked& asked);
/// The morning from which a step that has not begun is passed over.
std::optional<int> given_up_on(const StepAsked& asked);
/// The ground, the straw, the calls to burn and the canal of a history let it be worked today; rain left out.
bool lets_work(const StepAsked& asked, const History& today);
bool rain_lets(const StepAsked& asked, int day);
/// Water may come through the levees from a field that stands under water.
bool takes_seepage(const StepAsked& asked);

}  // namespace aftercut::planner
