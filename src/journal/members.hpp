#pragma once
// The members of a JSON object, checked. Internal to the room.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "entry_json.hpp"

namespace aftercut::journal {

inline constexpr int most_seq = 1000000000;
inline constexpr std::size_t short_text = 100, long_text = 2000, most_with = 20;

struct Span {
  double least, most;
};

inline bool is_plain(const std::string& text) {
  return std::ranges::none_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

inline std::string shown(const Json& j) { return shortened(j.dump()); }

/// The members of one JSON object, each taken once; gathers what is wrong with them.
class Members {
 public:
  Members(const Json& json, std::string file, std::string place)
      : json_{json}, file_{std::move(file)}, place_{std::move(place)} {}

  void fault(const std::string& key, const std::string& found, const std::string& expected) {
    issues_.push_back(
        {file_, place_ + key, found, expected, "record it with aftercut record, which writes such lines"});
  }
  bool has(const std::string& key) const { return json_.contains(key); }

  std::optional<double> number(const std::string& key, Span span) {
    const Json* j = taken(key);
    if (j == nullptr) return std::nullopt;
    const double v = j->is_number() ? j->get<double>() : std::nan("");
    if (v >= span.least && v <= span.most) return v + 0.0;
    fault(key, shown(*j), fmt::format("a number from {} to {}", span.least, span.most));
    return std::nullopt;
  }
  std::optional<int> whole(const std::string& key) {
    const Json* j = taken(key);
    if (j == nullptr) return std::nullopt;
    if (j->is_number_integer() && j->get<std::int64_t>() >= 1 && j->get<std::int64_t>() <= most_seq)
      return j->get<int>();
    fault(key, shown(*j), "a whole number from 1 on");
    return std::nullopt;
  }
  std::string text(const std::string& key, std::size_t most, bool needed = false) {
    const Json* j = taken(key);
    if (j == nullptr) {
      if (needed) fault(key, "nothing", "a text");
      return {};
    }
    return checked_text(key, *j, most);
  }
  bool flag(const std::string& key) {
    const auto given = maybe_flag(key);
    if (given && !*given) fault(key, "false", "true, or no such key");
    return given.value_or(false);
  }
  std::optional<bool> maybe_flag(const std::string& key) {
    const Json* j = taken(key);
    if (j == nullptr) return std::nullopt;
    if (j->is_boolean()) return j->get<bool>();
    fault(key, shown(*j), "true or false");
    return std::nullopt;
  }
  std::optional<Date> day(const std::string& key) {
    const Json* j = taken(key);
    if (j == nullptr) return std::nullopt;
    const auto date = j->is_string() ? parse_iso_date(j->get<std::string>()) : std::nullopt;
    if (!date) fault(key, shown(*j), "a day like 2026-10-14");
    return date;
  }
  std::vector<std::string> texts(const std::string& key) {
    const Json* j = taken(key);
    std::vector<std::string> all;
    if (j == nullptr) return all;
    if (!j->is_array() || j->empty() || j->size() > most_with) {
      fault(key, shown(*j), fmt::format("a list of 1 to {} names", most_with));
      return all;
    }
    for (const Json& name : *j) all.push_back(checked_text(key, name, short_text));
    return all;
  }
  /// The place of the word in `words`.
  std::optional<std::size_t> one_of(const std::string& key, const std::vector<std::string>& words) {
    const Json* j = taken(key);
    const std::string word = j != nullptr && j->is_string() ? j->get<std::string>() : "";
    const auto at = std::ranges::find(words, word);
    if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
    fault(key, j == nullptr ? "nothing" : shown(*j), fmt::format("one of {}", fmt::join(words, ", ")));
    return std::nullopt;
  }
  const Json* object(const std::string& key) {
    const Json* j = taken(key);
    if (j != nullptr && j->is_object()) return j;
    fault(key, j == nullptr ? "nothing" : shown(*j), "an object");
    return nullptr;
  }
  /// What is wrong, unknown keys with it.
  Issues issues() {
    for (const auto& [key, value] : json_.items())
      if (!taken_.contains(key))
        fault(key, "a key that this version does not know", "only keys of docs/journal.md");
    return std::move(issues_);
  }
  void take_no_note_of(const std::string& key) { taken_.insert(key); }

 private:
  const Json* taken(const std::string& key) {
    taken_.insert(key);
    const auto at = json_.find(key);
    return at == json_.end() ? nullptr : &*at;
  }
  std::string checked_text(const std::string& key, const Json& j, std::size_t most) {
    if (j.is_string()) {
      std::string text = j.get<std::string>();
      if (!text.empty() && text.size() <= most && is_plain(text)) return text;
    }
    fault(key, shown(j), fmt::format("a text of 1 to {} bytes in one line", most));
    return {};
  }

  const Json& json_;
  std::string file_, place_;
  Issues issues_;
  std::set<std::string> taken_;
};

}  // namespace aftercut::journal
