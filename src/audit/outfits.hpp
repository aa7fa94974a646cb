#pragma once
// Machines and people of a plan's work: fit for the job, there, within their hours, never in two places.

#include <vector>

#include "aftercut/plan/decision.hpp"
#include "facts.hpp"
#include "findings.hpp"

namespace aftercut::audit {

/// The outfit of one stretch: fit machines, enough skilled people, all there that day, inside the working
/// day.
Findings check_outfit(const Facts& facts, int year, const plan::Work& work);
/// All stretches of one day together: nothing and nobody twice at a time, time to move, one outfit on a
/// field.
Findings check_together(const Facts& facts, int year, const std::vector<plan::Work>& day);

/// The people of a stretch alone, inside the working day: a crew that waits has no machines.
Findings check_waiting_crew(const Facts& facts, int year, const plan::Work& work);
/// The day lies in one of the ranges.
bool within(const std::vector<machinery::DateRange>& ranges, Date day);
/// Minutes that a person is at work on a season day; 0 when away or off.
int minutes_at_work(const Facts& facts, int person, int day);

/// People of the farm who are in the stretch.
std::vector<int> people_of(const plan::Work& work);
/// The hired outfit brings its own people.
bool brings_people(const farm::Farm& farm, int implement);

}  // namespace aftercut::audit
