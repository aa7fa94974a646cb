#include "aftercut/scenario/not_burned.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace aftercut::scenario {

std::string not_burned_words(const plan::DaysNotBurned& days, int years) {
  std::array<std::pair<int, const char*>, plan::not_burned_parts.size()> parts{
      {{days.not_called, "not called by the authority"},
       {days.too_wet, "too wet"},
       {days.out_of_limits, "with wind, humidity or warmth outside the limits"},
       {days.no_room, "without people, hours or burn area left"}}};
  int all = 0;
  for (const auto& [n, what] : parts) all += n;
  if (all == 0) return "no day came on which the burn was due and the calendar open";
  std::stable_sort(parts.begin(), parts.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::string out = years == 1 ? fmt::format("of {} days of the window in that year: ", all)
                               : fmt::format("of {} days of the window in those years ({:.0f} a year): ", all,
                                             static_cast<double>(all) / years);
  for (std::size_t k = 0; k < parts.size() && parts[k].first > 0; ++k)
    out += fmt::format("{}{} {}", k == 0 ? "" : ", ", parts[k].first, parts[k].second);
  return out;
}

}  // namespace aftercut::scenario
