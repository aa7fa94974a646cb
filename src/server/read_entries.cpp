// What the page sends to be written down.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "aftercut/farm/fault_words.hpp"
#include "aftercut/journal/form.hpp"
#include "aftercut/server/guard.hpp"
#include "journal_json.hpp"

namespace aftercut::server {
namespace {

using json = nlohmann::ordered_json;

constexpr const char* the_request = "request";
constexpr std::size_t most_entries = 200;
constexpr std::array<const char*, 6> members{"id", "done_on", "by", "words", "with", "note"};

Issue fault(const std::string& place, const std::string& found, const std::string& expected) {
  return {the_request, place, shortened(found), expected, "mend the request (docs/server.md)"};
}

/// One entry of the request, its faults gathered.
class Asked {
 public:
  Asked(const json& value, std::size_t number) : value_{value}, place_{fmt::format("entry {}", number)} {}

  std::string text(const char* key) {
    if (!value_.contains(key)) return "";
    if (value_[key].is_string()) return value_[key].get<std::string>();
    say(key, value_[key].dump(), "text");
    return "";
  }
  std::vector<std::string> list(const char* key) {
    std::vector<std::string> all;
    if (!value_.contains(key)) return all;
    if (!value_[key].is_array()) say(key, value_[key].dump(), "a list of text");
    for (const json& one : value_[key]) {
      if (one.is_string())
        all.push_back(one.get<std::string>());
      else
        say(key, one.dump(), "text");
    }
    return all;
  }
  std::vector<std::string> words() {
    if (value_.contains("words") && value_["words"].is_array()) return list("words");
    return journal::words_of(text("words"));
  }
  std::optional<journal::Entry> entry(const journal::Names& names, const journal::Now& now) {
    if (!value_.is_object()) {
      issues.push_back(fault(place_, value_.dump(), "an entry with its words"));
      return std::nullopt;
    }
    for (const auto& [key, ignored] : value_.items())
      if (std::ranges::find(members, key) == members.end())
        say(key, "a key that no entry has", "id, done_on, by, words, with or note");
    const std::string day = text("done_on"), id = text("id"), by = text("by"), note = text("note");
    const auto done_on = day.empty() ? std::optional{now.today} : parse_iso_date(day);
    if (!done_on) say("done_on", day, "a day like 2026-10-14");
    const auto form = journal::read_form({words(), list("with")}, names);
    for (Issue issue : form.issues()) {
      issue.file = the_request;
      issue.place = place_ + ", " + issue.place;
      issues.push_back(std::move(issue));
    }
    if (!issues.empty()) return std::nullopt;
    journal::Entry e = journal::as_entry(form.value(), note);
    e.id = id.empty() ? random_key() : id;
    e.done_on = *done_on;
    e.recorded_at = now.time;
    e.by = by.empty() ? "grower" : by;
    return e;
  }
  Issues issues;

 private:
  void say(const std::string& key, const std::string& found, const std::string& expected) {
    issues.push_back(fault(place_ + ", " + key, found, expected));
  }
  const json& value_;
  std::string place_;
};

}  // namespace

Result<std::vector<journal::Entry>> read_entries(const std::string& body, const farm::Farm& farm,
                                                 const journal::Now& now) {
  const json value = json::parse(body, nullptr, false);
  if (!value.is_object() || value.size() != 1 || !value.contains("entries") || !value["entries"].is_array())
    return Issues{fault("whole body", body, R"({"entries": [...]})")};
  const json& list = value["entries"];
  if (list.empty() || list.size() > most_entries)
    return Issues{fault("entries", fmt::format("{} entries", list.size()), "1 to 200 entries")};
  const journal::Names names = journal::names_of(farm);
  std::vector<journal::Entry> entries;
  Issues issues;
  for (const json& one : list) {
    Asked asked{one, entries.size() + 1};
    entries.push_back(asked.entry(names, now).value_or(journal::Entry{}));
    issues.insert(issues.end(), asked.issues.begin(), asked.issues.end());
  }
  if (!issues.empty()) return issues;
  return entries;
}

Result<Date> read_morning(const std::string& body, Date today) {
  const json value = json::parse(body, nullptr, false);
  if (!value.is_object()) return Issues{fault("whole body", body, R"({"as_of": "2026-10-14"} or {})")};
  if (!value.contains("as_of")) return today;
  const auto day =
      value["as_of"].is_string() ? parse_iso_date(value["as_of"].get<std::string>()) : std::nullopt;
  if (!day) return Issues{fault("as_of", value["as_of"].dump(), "a day like 2026-10-14")};
  return *day;
}

Result<std::string> read_plan_id(const std::string& body) {
  const json value = json::parse(body, nullptr, false);
  if (!value.is_object() || !value.contains("plan") || !value["plan"].is_string())
    return Issues{fault("whole body", body, R"({"plan": "morning-3"})")};
  return value["plan"].get<std::string>();
}

}  // namespace aftercut::server
