#include "aftercut/core/week.hpp"

#include <array>

namespace aftercut {

Date week_start(Date day) { return day + -weekday(day); }

std::string week_words(Date day) {
  static constexpr std::array<const char*, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const Date monday = week_start(day);
  return "week of " + std::to_string(day_of_month(monday)) + " " +
         months[static_cast<std::size_t>(month_of(monday) - 1)];
}

}  // namespace aftercut
