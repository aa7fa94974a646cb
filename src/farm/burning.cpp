// What is known of a field where a burn is asked for, and the authority's day classes as they were.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "aftercut/core/digest.hpp"
#include "aftercut/geo/table.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

std::vector<burn::Sample> samples_of(const Object& v) {
  std::vector<burn::Sample> out;
  std::set<std::string> seen;
  for (const Object& o : v.list("disease_samples")) {
    const auto disease = o.text("disease");
    const auto share = o.quantity("share", "%", {0.0, 100.0});
    if (disease && !seen.insert(*disease).second)
      o.fault("disease", in_quotes(*disease) + " twice", "one sample of each disease",
              "keep the sample that the authority was shown");
    if (!o.has(o.key_of("share")))
      o.fault("share", "nothing", "the share of the stems sampled, such as \"18 %\"",
              "write what the sample gave");
    if (disease && share) out.push_back({*disease, *share / 100.0});
  }
  return out;
}

std::optional<std::size_t> column_named(const Object& part, const geo::Table& table,
                                        const std::string& what) {
  const Object columns = part.child("columns");
  const std::string name = columns.text_or(what, what);
  const auto at = std::find(table.columns.begin(), table.columns.end(), name);
  if (at != table.columns.end()) return static_cast<std::size_t>(at - table.columns.begin());
  const std::string fix =
      did_you_mean(name, table.columns, "name it under `columns`; the file has " + listed(table.columns));
  if (columns.has(what))
    columns.fault(what, in_quotes(name), "a column of " + table.file, fix);
  else
    part.faults().add({table.file, "column " + what, "no such column", "a column " + what, fix});
  return std::nullopt;
}

/// "burn" and "no burn" alone: a class of the authority's own is brought to one of the two by the user.
std::optional<bool> call_of(const std::string& word) {
  if (word == "burn") return true;
  if (word == "no burn") return false;
  return std::nullopt;
}

std::vector<burn::DayCall> calls_of(const Object& part, const geo::Table& table) {
  const auto date_at = column_named(part, table, "date"), class_at = column_named(part, table, "class");
  std::vector<burn::DayCall> calls;
  if (!date_at || !class_at) return calls;
  std::set<Date> seen;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const std::string line = fmt::format("line {}, column ", r + 2);
    const std::string &date = table.rows[r][*date_at], &word = table.rows[r][*class_at];
    const auto day = parse_iso_date(date);
    const auto call = call_of(word);
    if (!day)
      part.faults().add({table.file, line + table.columns[*date_at], in_quotes(date),
                         "a day of the calendar, such as \"2026-10-20\"", "write year-month-day"});
    if (!call)
      part.faults().add({table.file, line + table.columns[*class_at], in_quotes(word), "`burn` or `no burn`",
                         "bring the authority's class to one of the two words"});
    if (day && !seen.insert(*day).second)
      part.faults().add({table.file, line + table.columns[*date_at], iso(*day) + " twice", "each day once",
                         "keep the class that was in force when burns were lit"});
    if (day && call) calls.push_back({*day, *call});
  }
  std::sort(calls.begin(), calls.end(), [](const auto& a, const auto& b) { return a.day < b.day; });
  return calls;
}

std::string canonical_calls(const std::vector<burn::DayCall>& calls) {
  std::string text;
  for (const burn::DayCall& c : calls) text += iso(c.day) + (c.called ? ",burn\n" : ",no burn\n");
  return text;
}

}  // namespace

BurnFacts read_burn_facts(const Object& v) {
  BurnFacts b;
  b.zone = v.text("burn_zone");
  b.leave = v.text("burn_leave");
  b.samples = samples_of(v);
  b.clean_years = v.whole("clean_record_years", 0, 100);
  b.people = v.whole("burn_people", 0, 1000);
  b.water_l = v.quantity("burn_water", "L", {0.0, 1e6});
  b.firebreak_m = v.quantity("firebreak", "m", {0.0, 1000.0});
  b.dryness_test = v.date("dryness_test");
  b.ignition = v.text("burn_ignition");
  return b;
}

BurnCalls read_burn_calls(const Object& top, const Folder& folder) {
  const Object part = top.child("burn_days");
  const auto file = part.text("file");
  if (!file) return {};
  if (!top.has("burn_rules"))
    top.fault("burn_days", in_quotes(*file), "`burn_rules` beside it",
              "name the rules of the authority that called these days");
  const Result<geo::Table> read = geo::read_table(folder.path / *file);
  if (!read) {
    part.faults().add_all_as(*file, read.issues());
    return {};
  }
  geo::Table table = read.value();
  table.file = *file;
  BurnCalls out{calls_of(part, table), {}};
  out.input = Farm::Input{*file, sha256_hex(canonical_calls(out.calls))};
  return out;
}

}  // namespace aftercut::farm
