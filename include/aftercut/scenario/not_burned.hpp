#pragma once
// Words for what kept a burning method from its burn.

#include <string>

#include "aftercut/plan/days_not_burned.hpp"

namespace aftercut::scenario {

/// "of 410 days of the window in those years (41 a year): 300 too wet, 110 not called by the authority": the
/// largest count first, causes without a day left out. `days` are summed over `years` years without a burn.
std::string not_burned_words(const plan::DaysNotBurned& days, int years);

}  // namespace aftercut::scenario
