#include "aftercut/core/date.hpp"

#include <fmt/format.h>

#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <charconv>

#include "aftercut/core/require.hpp"

namespace aftercut {
namespace {

using boost::gregorian::date;
using boost::gregorian::gregorian_calendar;

const date epoch{1970, 1, 1};

date to_boost(Date d) { return epoch + boost::gregorian::days{d.days()}; }

bool exists(int year, int month, int day) {
  if (year < 1400 || year > 9999 || month < 1 || month > 12 || day < 1) return false;
  return day <= gregorian_calendar::end_of_month_day(static_cast<unsigned short>(year),
                                                     static_cast<unsigned short>(month));
}

std::optional<int> digits(std::string_view text) {
  int n = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
  if (error != std::errc{} || end != text.data() + text.size() || text.front() == '-') return std::nullopt;
  return n;
}

}  // namespace

Date make_date(int year, int month, int day) {
  if (!exists(year, month, day)) fail(fmt::format("no such day: {}-{}-{}", year, month, day));
  const date d{static_cast<unsigned short>(year), static_cast<unsigned short>(month),
               static_cast<unsigned short>(day)};
  return Date{static_cast<std::int32_t>((d - epoch).days())};
}

std::optional<Date> parse_iso_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto y = digits(text.substr(0, 4)), m = digits(text.substr(5, 2)), d = digits(text.substr(8, 2));
  if (!y || !m || !d || !exists(*y, *m, *d)) return std::nullopt;
  return make_date(*y, *m, *d);
}

std::optional<MonthDay> parse_month_day(std::string_view text) {
  if (text.size() != 5 || text[2] != '-') return std::nullopt;
  const auto m = digits(text.substr(0, 2)), d = digits(text.substr(3, 2));
  if (!m || !d || !exists(2000, *m, *d)) return std::nullopt;
  return MonthDay{*m, *d};
}

std::string iso(Date d) { return fmt::format("{:04}-{:02}-{:02}", year_of(d), month_of(d), day_of_month(d)); }
std::string iso(MonthDay d) { return fmt::format("{:02}-{:02}", d.month, d.day); }
int year_of(Date d) { return to_boost(d).year(); }
int month_of(Date d) { return to_boost(d).month(); }
int day_of_month(Date d) { return to_boost(d).day(); }
int day_of_year(Date d) { return to_boost(d).day_of_year(); }
int weekday(Date d) { return (to_boost(d).day_of_week() + 6) % 7; }
bool is_leap_year(int year) { return gregorian_calendar::is_leap_year(static_cast<unsigned short>(year)); }

Date next_on(MonthDay md, Date from) {
  for (int year = year_of(from);; ++year) {
    const int day = md.month == 2 && md.day == 29 && !is_leap_year(year) ? 28 : md.day;
    const Date candidate = make_date(year, md.month, day);
    if (candidate >= from) return candidate;
  }
}

}  // namespace aftercut
