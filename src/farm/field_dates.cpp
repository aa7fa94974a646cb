// What a field is wanted for next, and its dates against each other and the season.

#include <fmt/format.h>

#include <algorithm>

#include "parts.hpp"

namespace aftercut::farm {
namespace {

struct Order {
  const char* earlier;
  Date a;
  const char* later;
  Date b;
  bool same_day;  ///< is fine
};

void check_order(const Object& v, const Order& o) {
  if (o.a < o.b || (o.same_day && o.a == o.b)) return;
  // The harvest is the firmest of the dates; a date that the field itself states is the one to mend.
  const std::string earlier = o.earlier, later = o.later;
  const bool at_later = !v.has(earlier) || (earlier == "harvest" && v.has(later));
  v.fault(at_later ? later : earlier, fmt::format("{} {}, {} {}", o.earlier, iso(o.a), o.later, iso(o.b)),
          fmt::format("{} {} {}", o.earlier, o.same_day ? "not after" : "before", o.later),
          "correct one of the two dates");
}

void check_lease(const Field& f, const Object& v, const Calendar& season) {
  if (!f.lease) return;
  const Object o = v.child("lease");
  const Date last = season.date(season.days - 1);
  if (f.lease->until < f.lease->from)
    o.fault("until", fmt::format("from {} until {}", iso(f.lease->from), iso(f.lease->until)),
            "from before until", "turn the two dates around");
  else if (f.lease->from <= f.harvest || f.lease->until > last)
    o.fault("from", fmt::format("{} to {}", iso(f.lease->from), iso(f.lease->until)),
            fmt::format("days after the harvest, {}, up to the season's end, {}", iso(f.harvest), iso(last)),
            "correct the lease's dates");
}

void check_harvest(const Field& f, const Object& v, const FieldSetting& setting) {
  const Calendar& season = setting.season.calendar;
  const Date last = season.date(season.days - 1);
  if (f.harvest < season.first || f.harvest > last) {
    v.fault("harvest", iso(f.harvest),
            fmt::format("a day of the season, {} to {}", iso(season.first), iso(last)),
            "correct the harvest day or the season");
    return;
  }
  if (f.cut && setting.stated_as_of && f.harvest > *setting.stated_as_of)
    v.fault("harvest", fmt::format("cut, yet harvested on {}", iso(f.harvest)),
            "a harvest not after as_of, " + iso(*setting.stated_as_of),
            "set cut to no, or correct the harvest day or as_of");
  if (f.summer_drain < season.first)
    v.fault("summer_drain", iso(f.summer_drain), "a day not before the season's first, " + iso(season.first),
            "let the season start earlier or correct the day");
  check_order(v, {"summer_drain", f.summer_drain, "harvest", f.harvest, false});
}

}  // namespace

NextUse read_next_use(const Object& v, const SeasonDates& season, Date harvest) {
  NextUse n;
  n.kind = static_cast<NextUseKind>(v.word("next_use", {"rice", "fallow", "other"}).value_or(0));
  n.planting = v.date("planting_date").value_or(season.planting.value_or(harvest + 1));
  n.window_opens = v.date("window_opens");
  // The farm's own window and limit go with the farm's planting date; a field with another date moves past
  // them.
  if (!n.window_opens && season.window_opens && *season.window_opens <= n.planting)
    n.window_opens = season.window_opens;
  n.cut_off = v.date("cut_off").value_or(std::max(season.cut_off.value_or(n.planting), n.planting));
  n.order = v.whole("planting_order", 0, 1000).value_or(0);
  n.wanted_chance = v.number("wanted_chance", {0.0, 1.0});
  if (n.kind == NextUseKind::fallow) return n;
  n.late_curve = read_late_curve(v);
  n.own_late_curve = !n.late_curve.empty();
  if (n.late_curve.empty()) n.late_curve = season.late_curve;
  if (n.late_curve.empty() && season.sound) n.late_curve = default_late_curve(season, n.planting, n.cut_off);
  return n;
}

void check_dates(const Field& f, const Object& v, const FieldSetting& setting) {
  if (!setting.season.sound) return;
  const Calendar& season = setting.season.calendar;
  check_harvest(f, v, setting);
  check_lease(f, v, season);
  if (f.next.kind == NextUseKind::fallow || !setting.season.planting) return;
  const Date opens = f.next.window_opens.value_or(f.next.planting), last = season.date(season.days - 1);
  // A field still standing that is expected too late is nobody's mistake: the plan names it.
  if (f.cut && f.harvest <= last)
    check_order(v,
                {"harvest", f.harvest, f.next.window_opens ? "window_opens" : "planting_date", opens, false});
  check_order(v, {"window_opens", opens, "planting_date", f.next.planting, true});
  check_order(v, {"planting_date", f.next.planting, "cut_off", f.next.cut_off, true});
  if (f.next.cut_off > last)
    v.fault("cut_off", iso(f.next.cut_off), "a day of the season, which ends on " + iso(last),
            "correct the date or let the season end later");
}

}  // namespace aftercut::farm
