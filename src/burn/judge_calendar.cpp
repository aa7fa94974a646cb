// Windows, weekdays, zones by year, early harvest, hours by the sun.

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "judge.hpp"

namespace aftercut::burn {
namespace {

bool inside(MonthDay from, MonthDay to, MonthDay day) {
  return from <= to ? from <= day && day <= to : from <= day || day <= to;
}

MonthDay month_day_of_date(Date date) { return {month_of(date), day_of_month(date)}; }

/// Outside every window that the rows give. Nothing when a window lacks one of its ends or none is given.
std::optional<bool> outside_windows(const Limits& l, Date date) {
  const MonthDay day = month_day_of_date(date);
  std::optional<bool> outside;
  for (const auto& [from, to] :
       {std::pair{l.autumn_from, l.autumn_to}, std::pair{l.spring_from, l.spring_to}}) {
    if (from.has_value() != to.has_value()) return std::nullopt;
    if (from) outside = outside.value_or(true) && !inside(*from, *to, day);
  }
  return outside;
}

}  // namespace

bool concerns(std::string_view name, const Facts& f) {
  if (name == "dry_days_spread") return !f.straw_in_windrow;
  if (name == "dry_days_windrow") return f.straw_in_windrow;
  if (name == "zones_even_years") return year_of(f.harvest.value_or(f.day)) % 2 == 0;
  if (name == "zones_odd_years") return year_of(f.harvest.value_or(f.day)) % 2 != 0;
  return true;
}

Verdict judge_window(const Rule& rule, const Case& c) {
  const std::optional<bool> outside = outside_windows(limits_of(c.place), c.facts.day);
  if (!outside) return doubtful(rule, "the window has no other end");
  if (*outside) return blocks(rule, iso(c.facts.day) + " is outside");
  return settle(rule, c.facts.day);
}

Verdict judge_weekdays(const Rule& rule, const Case& c) {
  const auto days = weekdays_of(rule);
  if (!days) return doubtful(rule, "the value is not understood");
  if (std::count(days->begin(), days->end(), weekday(c.facts.day)) > 0)
    return blocks(rule, iso(c.facts.day) + " is such a day");
  return settle(rule, c.facts.day);
}

Verdict judge_dates(const Rule& rule, const Case& c) {
  const auto dates = dates_of(rule);
  if (!dates) return doubtful(rule, "the value is not understood");
  if (std::count(dates->begin(), dates->end(), month_day_of_date(c.facts.day)) > 0)
    return blocks(rule, iso(c.facts.day) + " is such a day");
  return settle(rule, c.facts.day);
}

Verdict judge_zones(const Rule& rule, const Case& c) {
  const auto zones = list_of(rule, Measure::list);
  if (!zones) return doubtful(rule, "the value is not understood");
  if (!c.facts.harvest) return doubtful(rule, "the year of the harvest is not known here");
  if (!c.facts.zone) return doubtful(rule, "the zone of the field is not known here");
  if (std::count(zones->begin(), zones->end(), *c.facts.zone) == 0)
    return blocks(rule, fmt::format("the field lies in zone {}, harvest of {}", in_marks(*c.facts.zone),
                                    year_of(*c.facts.harvest)));
  return settle(rule, c.facts.day);
}

Verdict judge_early_harvest(const Rule& rule, const Case& c) {
  const Limits l = limits_of(c.place);
  if (!l.early_before || !l.early_closed_from || !l.early_closed_to)
    return doubtful(rule, "the three rows of an early harvest belong together");
  if (!c.facts.harvest) return doubtful(rule, "the day of the harvest is not known here");
  const bool early = month_day_of_date(*c.facts.harvest) < *l.early_before;
  const bool closed = inside(*l.early_closed_from, *l.early_closed_to, month_day_of_date(c.facts.day));
  if (early && closed && !c.facts.leave)
    return blocks(
        rule, fmt::format("harvested on {}; no leave of the authority is entered", iso(*c.facts.harvest)));
  return settle(rule, c.facts.day);
}

Verdict judge_sun(const Rule& rule, const Case& c) {
  const auto limit = number_of(rule, Measure::hours);
  if (!limit) return doubtful(rule, "the value is not understood");
  const bool morning = rule.name == "after_sunrise";
  const std::optional<double> sun = morning ? c.facts.sunrise_hour : c.facts.sunset_hour;
  if (!c.facts.start_hour) return settle(rule, c.facts.day);
  if (!sun) return doubtful(rule, "the hour of the sun is not known here");
  const double hours = morning ? *c.facts.start_hour - *sun : *sun - *c.facts.start_hour;
  if (hours < *limit - slack)
    return blocks(rule,
                  fmt::format("lighting is {:.2f} h {}", hours, morning ? "after sunrise" : "before sunset"));
  return settle(rule, c.facts.day);
}

}  // namespace aftercut::burn
