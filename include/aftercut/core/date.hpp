#pragma once
// Calendar days. A season day is an index from the season's first day; a Date is an absolute day.

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace aftercut {

/// One calendar day (proleptic Gregorian), stored as days since 1970-01-01.
class Date {
 public:
  constexpr Date() = default;
  constexpr explicit Date(std::int32_t days_since_1970) : days_{days_since_1970} {}
  [[nodiscard]] constexpr std::int32_t days() const { return days_; }
  friend constexpr Date operator+(Date a, int n) { return Date{a.days_ + n}; }
  friend constexpr Date operator-(Date a, int n) { return Date{a.days_ - n}; }
  friend constexpr int operator-(Date a, Date b) { return a.days_ - b.days_; }
  friend constexpr auto operator<=>(Date, Date) = default;

 private:
  std::int32_t days_ = 0;
};

/// A day of any year, e.g. 15 May; 29 Feb counts as 28 Feb in a common year.
struct MonthDay {
  int month = 1;
  int day = 1;
  friend constexpr auto operator<=>(const MonthDay&, const MonthDay&) = default;
};

/// The day y-m-d. Throws (our own fault) when no such day exists or the year is outside 1400..9999.
Date make_date(int year, int month, int day);
/// "2026-09-14" -> day; nothing when the text is not exactly an existing ISO date.
std::optional<Date> parse_iso_date(std::string_view text);
/// "09-14" -> month and day; nothing when no such day exists in a leap year.
std::optional<MonthDay> parse_month_day(std::string_view text);
std::string iso(Date d);      ///< "2026-09-14"
std::string iso(MonthDay d);  ///< "09-14"
int year_of(Date d);
int month_of(Date d);      ///< 1 to 12
int day_of_month(Date d);  ///< 1 to 31
int day_of_year(Date d);   ///< 1 to 366
int weekday(Date d);       ///< 0 Monday to 6 Sunday
bool is_leap_year(int year);
/// The first day at or after `from` that falls on `md`.
Date next_on(MonthDay md, Date from);

}  // namespace aftercut
