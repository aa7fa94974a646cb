#pragma once
// A small farm whose plan has a bound with multipliers, and its plan.

#include "sound_plan.hpp"

namespace aftercut::test {

/// Three years with short days, so that fields wait for one another; every method open but on the last field,
/// on which nothing may be done.
const farm::Problem& bounded_problem();
/// Made once; tests change copies of it.
const plan::PlannedYears& bounded_plan();

}  // namespace aftercut::test
