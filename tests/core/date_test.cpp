// Calendar days: against <chrono>'s calendar, the text forms, and what must be refused.
#include "aftercut/core/date.hpp"

#include <chrono>

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;

TEST_CASE("every day from 1900 to 2100 agrees with the standard library's calendar", "[cross]") {
  using namespace std::chrono;
  const sys_days first = sys_days{year{1900} / 1 / 1}, last = sys_days{year{2100} / 12 / 31};
  std::size_t wrong = 0;
  for (sys_days day = first; day <= last; day += days{1}) {
    const year_month_day ymd{day};
    const int y = static_cast<int>(ymd.year()), m = static_cast<int>(static_cast<unsigned>(ymd.month())),
              d = static_cast<int>(static_cast<unsigned>(ymd.day()));
    const Date date{static_cast<std::int32_t>(day.time_since_epoch().count())};
    const int of_year = static_cast<int>((day - sys_days{ymd.year() / 1 / 1}).count()) + 1;
    const bool same =
        make_date(y, m, d) == date && year_of(date) == y && month_of(date) == m && day_of_month(date) == d &&
        day_of_year(date) == of_year &&
        aftercut::weekday(date) == static_cast<int>(std::chrono::weekday{day}.iso_encoding()) - 1 &&
        parse_iso_date(iso(date)) == date;
    wrong += same ? 0U : 1U;
  }
  CHECK(wrong == 0);
}

TEST_CASE("a few days by name", "[recalled]") {
  CHECK(make_date(1970, 1, 1).days() == 0);
  CHECK(weekday(make_date(1970, 1, 1)) == 3);  // Thursday
  CHECK(weekday(make_date(2000, 1, 1)) == 5);  // Saturday
  CHECK(make_date(2000, 3, 1).days() == 11017);
  CHECK(iso(make_date(2026, 9, 4)) == "2026-09-04");
  CHECK(make_date(1969, 12, 31).days() == -1);
}

TEST_CASE("leap years and leap days", "[recalled]") {
  CHECK(is_leap_year(2024));
  CHECK(is_leap_year(2000));
  CHECK_FALSE(is_leap_year(1900));
  CHECK_FALSE(is_leap_year(2026));
  CHECK(make_date(2024, 2, 28) + 1 == make_date(2024, 2, 29));
  CHECK(make_date(2026, 2, 28) + 1 == make_date(2026, 3, 1));
  CHECK(day_of_year(make_date(2024, 12, 31)) == 366);
  CHECK(make_date(2025, 1, 1) - make_date(2024, 1, 1) == 366);
}

TEST_CASE("only exact, existing ISO dates are taken", "[identity]") {
  CHECK(parse_iso_date("2026-09-14") == make_date(2026, 9, 14));
  CHECK(parse_iso_date("2024-02-29").has_value());
  for (const char* text :
       {"",           "2026",       "2026-9-14",        "2026-09-14 ", " 2026-09-14", "2026/09/14",
        "14-09-2026", "2026-13-01", "2026-00-10",       "2026-01-00",  "2026-04-31",  "2026-02-29",
        "1900-02-29", "2026-09-1a", "2026--9-14",       "2026-+9-14",  "-026-09-14",  "+026-09-14",
        "2026-09--1", "20260914",   "2026-09-14T00:00", "0000-01-01",  "1399-12-31"})
    CHECK_FALSE(parse_iso_date(text).has_value());
}

TEST_CASE("month and day", "[identity]") {
  CHECK(parse_month_day("09-14") == MonthDay{9, 14});
  CHECK(parse_month_day("02-29") == MonthDay{2, 29});
  CHECK(iso(MonthDay{2, 3}) == "02-03");
  for (const char* text :
       {"", "9-14", "09/14", "13-01", "00-01", "02-30", "04-31", "09-00", "-9-14", "09-14-"})
    CHECK_FALSE(parse_month_day(text).has_value());
}

TEST_CASE("days that do not exist are our own fault", "[identity]") {
  CHECK_THROWS_AS(make_date(2026, 2, 29), InternalError);
  CHECK_THROWS_AS(make_date(2026, 0, 1), InternalError);
  CHECK_THROWS_AS(make_date(2026, 1, 32), InternalError);
  CHECK_THROWS_AS(make_date(1200, 1, 1), InternalError);
  CHECK_THROWS_AS(make_date(10000, 1, 1), InternalError);
}

TEST_CASE("the next day of the year: today counts, past days wait a year, 29 February", "[identity]") {
  CHECK(next_on({9, 14}, make_date(2026, 9, 14)) == make_date(2026, 9, 14));
  CHECK(next_on({9, 14}, make_date(2026, 9, 15)) == make_date(2027, 9, 14));
  CHECK(next_on({5, 15}, make_date(2026, 9, 1)) == make_date(2027, 5, 15));
  CHECK(next_on({2, 29}, make_date(2026, 12, 1)) == make_date(2027, 2, 28));
  CHECK(next_on({2, 29}, make_date(2027, 12, 1)) == make_date(2028, 2, 29));
  CHECK(next_on({2, 29}, make_date(2028, 2, 29)) == make_date(2028, 2, 29));
  for (int n = 0; n < 800; ++n) {
    const Date from = make_date(2023, 6, 1) + n, next = next_on({2, 29}, from);
    CHECK((next >= from && next - from <= 366));
  }
}

TEST_CASE("dates order and subtract", "[identity]") {
  const Date a = make_date(2026, 3, 1);
  CHECK(a - 1 == make_date(2026, 2, 28));
  CHECK((a + 400) - a == 400);
  CHECK(a < a + 1);
  CHECK(MonthDay{3, 1} < MonthDay{3, 2});
  CHECK(MonthDay{2, 28} < MonthDay{3, 1});
}
