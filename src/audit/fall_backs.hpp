#pragma once
// What the plan says of fields that have to do without what they hang on: triggers, storms, the runs behind
// the start-by days, and their shares.

#include "totals.hpp"

namespace aftercut::audit {

Findings check_fall_backs(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays);

}  // namespace aftercut::audit
