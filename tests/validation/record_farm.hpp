#pragma once
// An invented farm at the place of the Davis record, planned with its winters.

#include "aftercut/farm/problem.hpp"

namespace aftercut::validation {

/// Nine fields of 24 to 44 ha of clay, cut from 14 September to 20 October, with what `aftercut new` gives a
/// farm of that size: two tractors and drivers, one of each implement, a hired baler. The seedbeds are wanted
/// by 12 April: of 5, 12, 19 and 26 April and 3 May the day on which all nine chances of one plan lay between
/// 0.2 and 0.9, chosen before any chance was held against what happened, and not moved since. The record
/// has to be there.
farm::Problem record_farm();

}  // namespace aftercut::validation
