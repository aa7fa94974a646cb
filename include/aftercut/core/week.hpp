#pragma once
// Days in words, as a day or, where no more is known, as a week.

#include <string>

#include "aftercut/core/date.hpp"

namespace aftercut {

/// The Monday of the day's week.
Date week_start(Date day);
/// "12 Oct"
std::string day_words(Date day);
/// "week of 12 Oct", by its Monday.
std::string week_words(Date day);

}  // namespace aftercut
