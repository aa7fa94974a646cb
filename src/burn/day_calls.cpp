#include "aftercut/burn/day_calls.hpp"

#include <algorithm>

namespace aftercut::burn {

std::optional<bool> called_on(const std::vector<DayCall>& calls, Date day) {
  const auto at = std::lower_bound(calls.begin(), calls.end(), day,
                                   [](const DayCall& call, Date d) { return call.day < d; });
  if (at == calls.end() || at->day != day) return std::nullopt;
  return at->called;
}

}  // namespace aftercut::burn
