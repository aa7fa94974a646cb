#pragma once
// The authority's day classes as they were, entered by date: burn days and days without a call.

#include <optional>
#include <vector>

#include "aftercut/core/date.hpp"

namespace aftercut::burn {

struct DayCall {
  Date day;
  bool called = false;
  friend bool operator==(const DayCall&, const DayCall&) = default;
};

/// What the authority called on that day; nothing where it is not entered. `calls` rise by day, each once.
std::optional<bool> called_on(const std::vector<DayCall>& calls, Date day);

}  // namespace aftercut::burn
