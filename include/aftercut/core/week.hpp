#pragma once
// Days that are known to the week only.

#include <string>

#include "aftercut/core/date.hpp"

namespace aftercut {

/// The Monday of the day's week.
Date week_start(Date day);
/// "week of 12 Oct", by its Monday.
std::string week_words(Date day);

}  // namespace aftercut
