#pragma once
// What the plan says of the next best method, toss-ups, break-even prices and waiting, against the replayed
// years and what it tells of its methods.

#include "totals.hpp"

namespace aftercut::audit {

Findings check_reasons(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays);

}  // namespace aftercut::audit
