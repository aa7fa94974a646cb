#pragma once
// The journal as the page reads it, and what of it the page sends. Internal to the room.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "aftercut/journal/write_down.hpp"
#include "aftercut/server/work.hpp"

namespace aftercut::server {

/// {"seq", "done_on", "words", "field", "by", "correction"}.
nlohmann::ordered_json entry_said(const journal::Entry& entry, farm::UnitSystem units);

/// What the form needs beside the standing entries, newest first. `stands`: the plan, null where there is
/// none yet.
struct JournalShown {
  const journal::Log* log = nullptr;
  const farm::Problem* problem = nullptr;  ///< before the journal's entries
  const Kept* stands = nullptr;
  Date today;
};
std::string journal_json(const JournalShown& shown);

/// The entries of a request's body, {"entries": [{"id", "done_on", "by", "words", "with", "note"}]}, or all
/// that is wrong with them. `words` is a line, or its words one by one; without `done_on` it is today's.
Result<std::vector<journal::Entry>> read_entries(const std::string& body, const farm::Farm& farm,
                                                 const journal::Now& now);

/// {"as_of": DAY}, or today.
Result<Date> read_morning(const std::string& body, Date today);

/// {"plan": ID}.
Result<std::string> read_plan_id(const std::string& body);

}  // namespace aftercut::server
