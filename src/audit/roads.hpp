#pragma once
// Ways between fields, worked out afresh: minutes of a move, soft roads, stays too short to move for.

#include "facts.hpp"
#include "findings.hpp"

namespace aftercut::audit {

/// Folding and unfolding and the way by road between two fields; 0 for the same field.
int move_minutes(const farm::Farm& farm, int from, int to);

/// No bale wagon leaves over soft roads on or soon after a day of much rain; no stretch that leaves a pass
/// unfinished is shorter than the least stay. `rain_mm`: [season day].
Findings check_ways(const farm::Farm& farm, const Place& place, const plan::Work& w,
                    const std::vector<double>& rain_mm);

}  // namespace aftercut::audit
