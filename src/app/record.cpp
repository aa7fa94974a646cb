#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "aftercut/app/clock.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/journal/doubts.hpp"
#include "aftercut/journal/import.hpp"
#include "aftercut/journal/write_down.hpp"
#include "aftercut/server/guard.hpp"

namespace aftercut::app {
namespace {

using Entries = std::vector<journal::Entry>;

std::string writer_of(const Options& o) {
  if (!o.by.empty()) return o.by;
  const char* user = std::getenv("USER");
  return user != nullptr && *user != '\0' ? user : "grower";
}

Result<Entries> entry_said(const Options& o, const farm::Farm& farm, const journal::Now& now) {
  Issues issues;
  const auto day = o.day.empty() ? std::optional{now.today} : parse_iso_date(o.day);
  if (!day)
    issues.push_back({"command line", "--on", o.day, "a day like 2026-10-14", "write year-month-day"});
  const auto form = journal::read_form({o.words, o.with}, journal::names_of(farm));
  const Issues unread = form.issues();
  issues.insert(issues.end(), unread.begin(), unread.end());
  if (!issues.empty()) return issues;
  journal::Entry e = journal::as_entry(form.value(), o.note);
  e.done_on = *day;
  e.id = o.id.empty() ? server::random_key() : o.id;
  e.recorded_at = now.time;
  e.by = writer_of(o);
  return Entries{e};
}

Result<Entries> entries_of(const Options& o, const farm::Farm& farm, const journal::Now& now) {
  if (o.import.empty()) return entry_said(o, farm, now);
  if (!o.words.empty() || !o.with.empty() || !o.day.empty() || !o.id.empty() || !o.note.empty())
    return Issues{{"command line", "--import", "words or options beside it",
                   "--import alone, with --by and --now", "write days, notes and names into the file"}};
  return journal::read_import(o.import, farm, {writer_of(o), now.time, now.today});
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

/// What looks odd about the entries that were just confirmed, beside earlier ones. They stand all the same.
void tell_doubts(const Options& o, const journal::AtDesk& at, const Entries& written) {
  const auto log = journal::read_log(o.farm);
  if (!log.ok()) return;
  farm::Problem problem = *at.problem;
  problem.as_of = at.today + 1;  // the work of today counts
  const auto own = [&](int entry) {
    return std::ranges::any_of(written, [&](const journal::Entry& e) {
      return e.seq == entry || (e.corrects && *e.corrects == entry);
    });
  };
  for (const farm::Doubt& d :
       journal::doubts_in(problem, journal::standing_on(log.value().entries, problem.as_of)))
    if (std::ranges::any_of(d.entries, own))
      fmt::print(stderr, "{}\n", journal::doubt_words(at.problem->farm, d));
}

int write(const Options& o, const journal::AtDesk& at, const Entries& entries) {
  const auto stand = journal::write_down(o.farm, entries, at);
  if (!stand.ok()) return report_issues(stand.issues(), o.json);
  const Entries& all = stand.value();
  if (o.json)
    fmt::print("{}\n", entries_json(all));
  else if (o.import.empty())
    fmt::print("Entry {}: {}, {}.\n", all[0].seq, iso(all[0].done_on),
               journal::said_of(all[0], at.problem->farm.units));
  else if (all.size() == 1)
    fmt::print("1 entry stands, number {}.\n", all.back().seq);
  else
    fmt::print("{} entries stand, the last is number {}.\n", all.size(), all.back().seq);
  tell_doubts(o, at, all);
  return done;
}

int try_out(const Options& o, const journal::AtDesk& at, const Entries& entries) {
  const auto log = journal::read_log(o.farm);
  const Issues issues = log.ok() ? journal::faults_of(log.value(), entries, at) : log.issues();
  if (!issues.empty()) return report_issues(issues, o.json);
  if (o.json)
    fmt::print("{}\n", entries_json(entries));
  else
    for (const auto& e : entries)
      fmt::print("Not written: {}, {}.\n", iso(e.done_on), journal::said_of(e, at.problem->farm.units));
  return done;
}

}  // namespace

int record(const Options& o) {
  farm::ReadOptions options;
  options.fit_implements = false;
  const auto problem = farm::read(o.farm, options);
  if (!problem.ok()) return report_issues(problem.issues(), o.json);
  if (o.list) return show(o, problem.value().farm);
  const auto now = now_of(o);
  if (!now.ok()) return report_issues(now.issues(), o.json);
  const auto entries = entries_of(o, problem.value().farm, now.value());
  if (!entries.ok()) return report_issues(entries.issues(), o.json);
  const journal::AtDesk at{&problem.value(), now.value().today};
  return o.dry_run ? try_out(o, at, entries.value()) : write(o, at, entries.value());
}

}  // namespace aftercut::app
