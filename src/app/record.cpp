#include <fmt/chrono.h>
#include <fmt/format.h>

#include <cstdlib>
#include <ctime>
#include <nlohmann/json.hpp>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/journal/import.hpp"
#include "aftercut/journal/log.hpp"
#include "aftercut/server/guard.hpp"

namespace aftercut::app {
namespace {

using Entries = std::vector<journal::Entry>;

/// The time of recording in UTC, and the day that it is here.
struct Now {
  std::string time;
  Date today;
};

Result<Now> now_of(const Options& o) {
  if (o.now.empty()) {
    const std::time_t now = std::time(nullptr);
    const std::tm here = fmt::localtime(now);
    return Now{fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(now)),
               make_date(here.tm_year + 1900, here.tm_mon + 1, here.tm_mday)};
  }
  const auto day = parse_iso_date(std::string_view{o.now}.substr(0, 10));
  if (!day || o.now.size() != 20)
    return Issues{{"command line", "--now", o.now, "a time like 2026-10-14T18:03:22Z", "mend the option"}};
  return Now{o.now, *day};
}

std::string writer_of(const Options& o) {
  if (!o.by.empty()) return o.by;
  const char* user = std::getenv("USER");
  return user != nullptr && *user != '\0' ? user : "grower";
}

Result<Entries> entry_said(const Options& o, const farm::Farm& farm, const Now& now) {
  Issues issues;
  journal::Entry e;
  e.done_on = now.today;
  if (!o.day.empty()) {
    const auto day = parse_iso_date(o.day);
    if (!day)
      issues.push_back({"command line", "--on", o.day, "a day like 2026-10-14", "write year-month-day"});
    e.done_on = day.value_or(now.today);
  }
  const auto form = journal::read_form({o.words, o.with}, journal::names_of(farm));
  const Issues unread = form.issues();
  issues.insert(issues.end(), unread.begin(), unread.end());
  if (!issues.empty()) return issues;
  e.id = o.id.empty() ? server::random_key() : o.id;
  e.recorded_at = now.time;
  e.by = writer_of(o);
  e.field = form.value().field;
  e.what = form.value().what;
  e.corrects = form.value().corrects;
  e.note = o.note;
  if (!form.value().note.empty()) e.note += (e.note.empty() ? "" : "; ") + form.value().note;
  issues = journal::faults_on(farm, e, now.today);
  for (const Issue& i : journal::format_faults(e)) issues.push_back(i);
  if (!issues.empty()) return issues;
  return Entries{e};
}

Result<Entries> entries_of(const Options& o, const farm::Farm& farm) {
  const auto now = now_of(o);
  if (!now.ok()) return now.issues();
  if (o.import.empty()) return entry_said(o, farm, now.value());
  if (!o.words.empty() || !o.with.empty() || !o.day.empty() || !o.id.empty() || !o.note.empty())
    return Issues{{"command line", "--import", "words or options beside it",
                   "--import alone, with --by and --now", "write days, notes and names into the file"}};
  return journal::read_import(o.import, farm, {writer_of(o), now.value().time, now.value().today});
}

std::string entries_json(const Entries& entries) {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const auto& e : entries) list.push_back(nlohmann::ordered_json::parse(journal::entry_text(e)));
  return nlohmann::ordered_json{{"entries", list}}.dump(1);
}

std::string line_of(const journal::Entry& e, farm::UnitSystem units) {
  return fmt::format("{:>4}  {}  {} ({})\n", e.seq, iso(e.done_on), journal::said_of(e, units), e.by);
}

int show(const Options& o, const farm::Farm& farm) {
  const auto log = journal::read_log(o.farm);
  if (!log.ok()) return report_issues(log.issues(), o.json);
  const Entries& entries = log.value().entries;
  if (o.json) {
    fmt::print("{}\n", entries_json(entries));
  } else {
    if (entries.empty()) fmt::print("The journal has no entries yet.\n");
    for (const auto& e : entries) fmt::print("{}", line_of(e, farm.units));
  }
  if (!log.value().torn.empty())
    fmt::print(
        stderr,
        "The journal's last line was not written to its end and is left out: it was never confirmed. The "
        "next entry puts it aside.\n");
  return done;
}

int write(const Options& o, const farm::Farm& farm, const Entries& entries) {
  const auto stand = journal::append_all(o.farm, entries);
  if (!stand.ok()) return report_issues(stand.issues(), o.json);
  const Entries& all = stand.value();
  if (o.json)
    fmt::print("{}\n", entries_json(all));
  else if (o.import.empty())
    fmt::print("Entry {}: {}, {}.\n", all[0].seq, iso(all[0].done_on), journal::said_of(all[0], farm.units));
  else
    fmt::print("{} entries stand, the last is number {}.\n", all.size(), all.back().seq);
  return done;
}

}  // namespace

int record(const Options& o) {
  farm::ReadOptions options;
  options.fit_implements = false;
  const auto problem = farm::read(o.farm, options);
  if (!problem.ok()) return report_issues(problem.issues(), o.json);
  const farm::Farm& farm = problem.value().farm;
  if (o.list) return show(o, farm);
  const auto entries = entries_of(o, farm);
  if (!entries.ok()) return report_issues(entries.issues(), o.json);
  if (!o.dry_run) return write(o, farm, entries.value());
  if (o.json)
    fmt::print("{}\n", entries_json(entries.value()));
  else
    for (const auto& e : entries.value())
      fmt::print("Not written: {}, {}.\n", iso(e.done_on), journal::said_of(e, farm.units));
  return done;
}

}  // namespace aftercut::app
