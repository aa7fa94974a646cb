// The plan's calendar, written and read by libical.

#include "aftercut/report/calendar.hpp"

#include <fmt/format.h>
#include <libical/ical.h>

#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/core/week.hpp"
#include "exports_parts.hpp"
#include "truck_rows.hpp"

namespace aftercut::report::sheets {
namespace {

const char* const uid_end = "@aftercut";

/// One all-day event. `key` says what it is, never when: the same thing keeps its UID from plan to plan.
struct Event {
  std::string key, summary, description, category;
  Date first, last;  ///< both with work
};

struct FreeComponent {
  void operator()(icalcomponent* c) const { icalcomponent_free(c); }
};
using Component = std::unique_ptr<icalcomponent, FreeComponent>;

/// The same letters for the same farm, so that a calendar of another farm is known as such.
std::string farm_part(const Plan& plan) { return sha256_hex("farm\n" + plan.farm).substr(0, 12); }

std::string fields_words(const std::vector<std::string>& ids) {
  if (ids.empty()) return "";
  return fmt::format(" ({} {})", ids.size() == 1 ? "field" : "fields", list_of(ids));
}

void add_dates(const Plan& plan, std::vector<Event>& out) {
  for (const KeepDate& d : plan.dates) {
    const std::string week = d.worked_out ? ", " + week_words(d.by) : "";
    out.push_back({.key = "date\n" + d.what + "\n" + (d.fields.empty() ? "" : d.fields.front()),
                   .summary = capital(d.what) + week + fields_words(d.fields),
                   .description = capital(d.why) + (d.source ? ". Source: " + *d.source : ""),
                   .category = "Dates to keep",
                   .first = d.by,
                   .last = d.by});
  }
}

/// A job of the field's own method, or of the fall-back where most years come to it.
bool is_shown(const Job& j) { return !j.fell_back || 2 * j.years_done >= j.years; }

void add_field_jobs(const Plan& plan, const Field& f, std::vector<Event>& out) {
  for (const Job& j : f.jobs) {
    if (!is_shown(j)) continue;
    const When when = when_of(j, plan.forecast_until);
    const std::string words = when_words(when, en);
    std::string name = operation_name(plan, j.operation, en);
    if (j.pass > 0) name += fmt::format(", pass {}", j.pass + 1);
    if (j.fell_back) name += " (fall-back)";
    const std::string who = who_with(plan, row_of(plan, f, j));
    out.push_back(
        {.key = fmt::format("job\n{}\n{}\n{}\n{}\n{}", f.id, j.step, j.pass, j.operation,
                            j.fell_back ? "fall-back" : "own"),
         .summary = fmt::format("Field {}: {}{}", field_label(f), name, when.to_the_day ? "" : ", " + words),
         .description = fmt::format("{}{}. {}, in {} of {} weather years. Method: {}.", capital(name),
                                    who.empty() ? "" : " (" + who + ")", capital(words), j.years_done,
                                    j.years, method_name(plan, f.method, en)),
         .category = "Jobs",
         .first = when.from,
         .last = when.to_the_day ? when.to : when.to + 6});
  }
}

void add_start_by(const Plan& plan, const Field& f, std::vector<Event>& out) {
  for (const FallBack& b : f.hangs_on) {
    const auto day = start_by_of(b);
    const Date by = day ? std::max(week_start(*day), plan.as_of) : plan.as_of;
    out.push_back({.key = "start\n" + f.id + "\n" + b.kind,
                   .summary = fmt::format("Field {}: start {}", field_label(f), fall_back_words(plan, b)),
                   .description = day ? "The last week that fits for all fields that hang on the same thing."
                                      : "It fits no more with the other fields: start at once.",
                   .category = "Start by",
                   .first = by,
                   .last = by});
  }
}

std::vector<Event> events_of(const Plan& plan) {
  std::vector<Event> out;
  add_dates(plan, out);
  for (const Field& f : plan.fields) {
    add_field_jobs(plan, f, out);
    add_start_by(plan, f, out);
  }
  // The same thing more than once is counted, so that no two events share a UID.
  std::map<std::string, int> times;
  for (Event& e : out)
    if (const int n = times[e.key]++; n > 0) e.key += fmt::format("\n{}", n);
  std::ranges::stable_sort(out, {}, &Event::first);
  return out;
}

icaltimetype day_of(Date d) {
  icaltimetype t = icaltime_null_date();
  t.year = year_of(d), t.month = month_of(d), t.day = day_of_month(d);
  return t;
}

icaltimetype stamp_of(Date d) {
  icaltimetype t = icaltime_null_time();
  t.year = year_of(d), t.month = month_of(d), t.day = day_of_month(d);
  t.zone = icaltimezone_get_utc_timezone();
  return t;
}

/// A later plan day has a higher number, and a newer event takes the place of an older one.
int sequence_of(const Plan& plan) { return plan.as_of - make_date(2000, 1, 1); }

/// Without the control characters that iCalendar does not know.
std::string clean(std::string text) {
  std::erase_if(text, [](char c) { return c != '\n' && c != '\t' && static_cast<unsigned char>(c) < 0x20; });
  std::erase(text, '\x7f');
  return text;
}

Component new_event(const std::string& uid, const Plan& plan, int sequence) {
  Component event{icalcomponent_new(ICAL_VEVENT_COMPONENT)};
  icalcomponent_add_property(event.get(), icalproperty_new_uid(uid.c_str()));
  icalcomponent_add_property(event.get(), icalproperty_new_dtstamp(stamp_of(plan.as_of)));
  icalcomponent_add_property(event.get(), icalproperty_new_sequence(sequence));
  return event;
}

Component component_of(const Event& e, const std::string& uid, const Plan& plan) {
  Component event = new_event(uid, plan, sequence_of(plan));
  const auto add = [&](icalproperty* p) { icalcomponent_add_property(event.get(), p); };
  add(icalproperty_new_dtstart(day_of(e.first)));
  add(icalproperty_new_dtend(day_of(e.last + 1)));
  add(icalproperty_new_summary(clean(e.summary).c_str()));
  add(icalproperty_new_description(clean(e.description).c_str()));
  add(icalproperty_new_categories(e.category.c_str()));
  add(icalproperty_new_status(ICAL_STATUS_CONFIRMED));
  add(icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
  return event;
}

Component empty_calendar(const Plan& plan) {
  Component calendar{icalcomponent_new(ICAL_VCALENDAR_COMPONENT)};
  const auto add = [&](icalproperty* p) { icalcomponent_add_property(calendar.get(), p); };
  add(icalproperty_new_version("2.0"));
  add(icalproperty_new_prodid("-//aftercut//plan//EN"));
  add(icalproperty_new_calscale("GREGORIAN"));
  icalproperty* name = icalproperty_new_x(clean(plan.farm).c_str());
  icalproperty_set_x_name(name, "X-WR-CALNAME");
  add(name);
  return calendar;
}

std::string text_of(icalcomponent* calendar) {
  char* text = icalcomponent_as_ical_string_r(calendar);
  require(text != nullptr, "a calendar can be written");
  std::string out = text;
  icalmemory_free_buffer(text);
  return out;
}

Component calendar_of(const Plan& plan, std::set<std::string>& uids) {
  Component calendar = empty_calendar(plan);
  for (const Event& e : events_of(plan)) {
    const std::string uid =
        farm_part(plan) + "-" + sha256_hex(plan.farm + "\n" + e.key).substr(0, 24) + uid_end;
    uids.insert(uid);
    icalcomponent_add_component(calendar.get(), component_of(e, uid, plan).release());
  }
  return calendar;
}

Issues not_ours(const std::string& found, const std::string& expected, const std::string& fix) {
  return {Issue{"calendar that is replaced", "whole file", found, expected, fix}};
}

/// An event of the older calendar that the new one does not have: the same one, cancelled.
Component cancelled(icalcomponent* old, const std::string& uid, const Plan& plan) {
  Component event = new_event(uid, plan, std::max(sequence_of(plan), icalcomponent_get_sequence(old) + 1));
  const auto copy = [&](icalproperty_kind kind) {
    if (icalproperty* p = icalcomponent_get_first_property(old, kind))
      icalcomponent_add_property(event.get(), icalproperty_new_clone(p));
  };
  for (const icalproperty_kind kind : {ICAL_DTSTART_PROPERTY, ICAL_DTEND_PROPERTY, ICAL_SUMMARY_PROPERTY})
    copy(kind);
  icalcomponent_add_property(event.get(), icalproperty_new_status(ICAL_STATUS_CANCELLED));
  icalcomponent_add_property(event.get(), icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
  return event;
}

Issues add_cancelled(const Plan& plan, const std::string& older, std::set<std::string> uids,
                     icalcomponent* calendar) {
  const Component old{icalparser_parse_string(older.c_str())};
  if (!old || icalcomponent_isa(old.get()) != ICAL_VCALENDAR_COMPONENT ||
      icalcomponent_count_errors(old.get()) > 0)
    return not_ours("no whole calendar", "a calendar.ics that aftercut wrote", "name such a file");
  int of_this_farm = 0, events = 0;
  for (icalcomponent* e = icalcomponent_get_first_component(old.get(), ICAL_VEVENT_COMPONENT); e != nullptr;
       e = icalcomponent_get_next_component(old.get(), ICAL_VEVENT_COMPONENT)) {
    ++events;
    const char* text = icalcomponent_get_uid(e);
    const std::string uid = text == nullptr ? "" : text;
    if (!uid.starts_with(farm_part(plan) + "-") || !uid.ends_with(uid_end)) continue;
    ++of_this_farm;
    const icaltimetype stamp = icalcomponent_get_dtstamp(e);
    if (icaltime_compare(stamp, stamp_of(plan.as_of)) > 0)
      return not_ours(fmt::format("a calendar of {:04}-{:02}-{:02}", stamp.year, stamp.month, stamp.day),
                      "one of " + iso(plan.as_of) + " or before",
                      "take the newest plan for the new calendar");
    if (uids.insert(uid).second) icalcomponent_add_component(calendar, cancelled(e, uid, plan).release());
  }
  if (events > 0 && of_this_farm == 0)
    return not_ours("no event of the farm " + plan.farm, "an older calendar of the same farm",
                    "name the calendar that was imported before");
  return {};
}

}  // namespace

std::string calendar_ics(const Plan& plan) {
  std::set<std::string> uids;
  return text_of(calendar_of(plan, uids).get());
}

Result<Exported> calendar_in_place_of(const Plan& plan, const std::string& older_ics) {
  std::set<std::string> uids;
  const Component calendar = calendar_of(plan, uids);
  const Issues issues = add_cancelled(plan, older_ics, uids, calendar.get());
  if (!issues.empty()) return issues;
  return Exported{"calendar.ics", "text/calendar", text_of(calendar.get())};
}

}  // namespace aftercut::report::sheets

namespace aftercut::report {

Result<Exported> calendar_replacing(const std::string& plan_json, const std::string& older_ics) {
  const auto plan = sheets::read_plan_text(plan_json);
  if (!plan.ok()) return plan.issues();
  return sheets::calendar_in_place_of(plan.value(), older_ics);
}

}  // namespace aftercut::report
