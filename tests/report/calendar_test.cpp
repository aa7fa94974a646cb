// calendar.ics read back by libical.
#include "aftercut/report/calendar.hpp"

#include <libical/ical.h>

#include <algorithm>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>

#include "aftercut/core/week.hpp"
#include "aftercut/report/report.hpp"
#include "catch2/catch.hpp"
#include "sample_farm.hpp"

namespace aftercut {
namespace {

using nlohmann::json;

struct EventRead {
  std::string summary, status, category;
  std::string first, end;  ///< ISO; the end is the day after
  int sequence = 0;
};
using Events = std::map<std::string, EventRead>;  ///< by UID

std::string iso_of(icaltimetype t) { return iso(make_date(t.year, t.month, t.day)); }

/// Every event; counts those of a UID that was there already.
Events read_calendar(const std::string& text, int& twice) {
  const std::unique_ptr<icalcomponent, void (*)(icalcomponent*)> calendar{
      icalparser_parse_string(text.c_str()), icalcomponent_free};
  REQUIRE(calendar);
  REQUIRE(icalcomponent_isa(calendar.get()) == ICAL_VCALENDAR_COMPONENT);
  CHECK(icalcomponent_count_errors(calendar.get()) == 0);
  CHECK(icalrestriction_check(calendar.get()) == 1);
  Events events;
  for (icalcomponent* e = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
       e != nullptr; e = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
    CHECK(icalcomponent_get_dtstart(e).is_date == 1);
    const icalproperty* c = icalcomponent_get_first_property(e, ICAL_CATEGORIES_PROPERTY);
    const EventRead read{
        .summary = icalcomponent_get_summary(e),
        .status = icalcomponent_get_status(e) == ICAL_STATUS_CANCELLED ? "cancelled" : "confirmed",
        .category = c == nullptr ? "" : icalproperty_get_categories(c),
        .first = iso_of(icalcomponent_get_dtstart(e)),
        .end = iso_of(icalcomponent_get_dtend(e)),
        .sequence = icalcomponent_get_sequence(e)};
    if (!events.emplace(icalcomponent_get_uid(e), read).second) ++twice;
  }
  return events;
}

Events read_calendar(const std::string& text) {
  int twice = 0;
  Events events = read_calendar(text, twice);
  CHECK(twice == 0);
  return events;
}

std::string calendar(const std::string& plan) {
  return report::export_of(plan, "calendar.ics", {}).value().bytes;
}

using Span = std::pair<std::string, std::string>;  ///< first day, day after the last

Span week_span(const json& job) {
  const Date from = week_start(*parse_iso_date(job["first"]["p10"].get<std::string>()));
  const Date to = week_start(*parse_iso_date(job["last"]["p90"].get<std::string>()));
  return {iso(from), iso(to + 7)};
}

std::multiset<Span> spans(const Events& events, const std::string& category) {
  std::multiset<Span> out;
  for (const auto& [uid, e] : events)
    if (e.category == category) out.emplace(e.first, e.end);
  return out;
}

std::set<std::string> uids(const Events& events) {
  std::set<std::string> out;
  for (const auto& [uid, e] : events) out.insert(uid);
  return out;
}

}  // namespace

TEST_CASE("the calendar holds the plan's dates, jobs and start-by days", "[cross]") {
  const std::string text = plan_text(test::sample());
  const json plan = json::parse(text);
  const Events events = read_calendar(calendar(text));
  std::multiset<Span> dates, jobs;
  std::size_t starts = 0;
  for (const json& d : plan["dates_to_keep"]) {
    const std::string by = d["by"];
    dates.emplace(by, iso(*parse_iso_date(by) + 1));
  }
  for (const json& f : plan["fields"]) {
    for (const json& j : f["jobs"]) jobs.insert(week_span(j));
    starts += f["chosen"]["more_fallbacks"].size() + (f["chosen"]["fallback"].is_null() ? 0 : 1);
  }
  REQUIRE(jobs.size() > 10);
  CHECK(spans(events, "Dates to keep") == dates);
  CHECK(spans(events, "Jobs") == jobs);
  CHECK(spans(events, "Start by").size() == starts);
  CHECK(events.size() == dates.size() + jobs.size() + starts);
  for (const auto& [uid, e] : events)
    if (e.category == "Jobs") CHECK(e.summary.find("week") != std::string::npos);
}

TEST_CASE("every event is stamped with the plan's day, whole", "[regression]") {
  const auto s = test::sample();
  const std::string text = calendar(plan_text(s));
  std::string day = iso(s.problem.as_of);
  std::erase(day, '-');
  std::size_t stamps = 0, good = 0;
  for (auto at = text.find("DTSTAMP:"); at != std::string::npos; at = text.find("DTSTAMP:", at + 1)) {
    ++stamps;
    good += text.substr(at + 8, 18) == day + "T000000Z\r\n" ? 1 : 0;
  }
  CHECK(stamps > 10);
  CHECK(good == stamps);
}

TEST_CASE("jobs inside the forecast stand on their days", "[cross]") {
  auto s = test::sample();
  s.planned.plan.forecast_until = s.problem.farm.season.date(272);
  const std::string text = plan_text(s);
  const Events events = read_calendar(calendar(text));
  const json plan = json::parse(text);
  std::multiset<Span> jobs;
  for (const json& f : plan["fields"])
    for (const json& j : f["jobs"])
      jobs.emplace(j["first"]["p50"], iso(*parse_iso_date(j["last"]["p50"].get<std::string>()) + 1));
  CHECK(spans(events, "Jobs") == jobs);
  for (const auto& [uid, e] : events)
    if (e.category == "Jobs") CHECK(e.summary.find("week") == std::string::npos);
}

TEST_CASE("a calendar of a later day brings up to date and does not double", "[identity]") {
  auto s = test::sample();
  const Events before = read_calendar(calendar(plan_text(s)));
  s.problem.as_of = s.problem.as_of + 3;
  s.planned.plan.as_of = s.problem.as_of;
  for (auto& field : s.planned.plan.fields)
    for (plan::Job& j : field.jobs)
      j.first.p10 += 7, j.first.p50 += 7, j.last.p90 += 7, j.first.p90 += 7, j.last.p50 += 7;
  const Events after = read_calendar(calendar(plan_text(s)));
  CHECK(uids(before) == uids(after));
  for (const auto& [uid, e] : after) CHECK(e.sequence == before.at(uid).sequence + 3);
}

TEST_CASE("events of the older calendar that are gone are cancelled, once and for all", "[identity]") {
  auto s = test::sample();
  const std::string first = calendar(plan_text(s));
  const Events before = read_calendar(first);
  s.problem.as_of = s.problem.as_of + 1;
  s.planned.plan.as_of = s.problem.as_of;
  s.planned.plan.fields[1].jobs.clear();
  const std::size_t gone = test::sample().planned.plan.fields[1].jobs.size();
  const auto second = report::calendar_replacing(plan_text(s), first);
  REQUIRE(second.ok());
  const Events after = read_calendar(second.value().bytes);
  CHECK(uids(after) == uids(before));
  std::size_t cancelled = 0;
  for (const auto& [uid, e] : after) {
    CHECK(e.sequence > before.at(uid).sequence);
    if (e.status != "cancelled") continue;
    ++cancelled;
    CHECK(e.first == before.at(uid).first);
    CHECK(e.summary == before.at(uid).summary);
  }
  CHECK(cancelled == gone);
  // A day later they are still told as cancelled: the calendar between may not have been imported.
  s.problem.as_of = s.planned.plan.as_of = s.problem.as_of + 1;
  const auto third = report::calendar_replacing(plan_text(s), second.value().bytes);
  REQUIRE(third.ok());
  CHECK(uids(read_calendar(third.value().bytes)) == uids(before));
  // The same plan over its own calendar changes nothing.
  const std::string own = calendar(plan_text(s));
  CHECK(report::calendar_replacing(plan_text(s), own).value().bytes == own);
}

TEST_CASE("an older calendar that does not fit gives an issue", "[regression]") {
  auto s = test::sample();
  const std::string plan = plan_text(s), own = calendar(plan);
  auto other = s;
  other.problem.farm.name = "Another farm";
  auto later = s;
  later.problem.as_of = later.planned.plan.as_of = s.problem.as_of + 5;
  const std::vector<std::pair<const char*, std::string>> rows{
      {"empty", ""},
      {"no calendar", "date,field\n2026-10-12,1\n"},
      {"cut off in the middle", own.substr(0, own.size() / 2)},
      {"another farm's", calendar(plan_text(other))},
      {"of a later day", calendar(plan_text(later))}};
  for (const auto& [what, older] : rows) {
    INFO(what);
    CHECK(report::calendar_replacing(plan, older).issues().size() == 1);
  }
  CHECK_FALSE(report::calendar_replacing("{", own).ok());
}

TEST_CASE("lines of the calendar are folded, and hostile names come back whole", "[cross]") {
  const auto s = test::hostile_sample();
  const std::string text = calendar(plan_text(s));
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t end = text.find("\r\n", from);
    REQUIRE(end != std::string::npos);
    CHECK(end - from <= 75);
    CHECK(text.substr(from, end - from).find('\n') == std::string::npos);
    // No line ends inside a letter: that would be the first byte of the next one.
    if (end + 3 < text.size()) CHECK((static_cast<unsigned char>(text[end + 3]) & 0xC0U) != 0x80U);
    from = end + 2;
  }
  const Events events = read_calendar(text);
  const std::string name = test::hostile_name();
  CHECK(std::ranges::any_of(events,
                            [&](const auto& e) { return e.second.summary.find(name) != std::string::npos; }));
}

}  // namespace aftercut
