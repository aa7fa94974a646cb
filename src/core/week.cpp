#include "aftercut/core/week.hpp"

#include <array>

namespace aftercut {

Date week_start(Date day) { return day + -weekday(day); }

std::string day_words(Date day) {
  static constexpr std::array<const char*, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  return std::to_string(day_of_month(day)) + " " + months[static_cast<std::size_t>(month_of(day) - 1)];
}

std::string week_words(Date day) { return "week of " + day_words(week_start(day)); }

}  // namespace aftercut
