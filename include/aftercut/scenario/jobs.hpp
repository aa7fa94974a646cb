#pragma once
// When each pass of the plan comes, from the runs of all years.

#include <vector>

#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

/// The order statistics at ceil(p n). At least one day, in any order.
plan::DayMarks day_marks(std::vector<int> days);

/// [field] every pass that the runs hold work of, by its middle first day. Waiting for a call is no work.
std::vector<std::vector<plan::Job>> jobs_of(const std::vector<plan::YearRun>& runs, std::size_t fields);

}  // namespace aftercut::scenario
