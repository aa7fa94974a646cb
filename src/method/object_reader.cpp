#include "object_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace aftercut::method {
namespace {

using nlohmann::json;

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string shown(const json& value) { return shortened(value.dump()); }

}  // namespace

void IssueLog::add(const std::string& place, const std::string& found, const std::string& expected,
                   const std::string& fix) {
  issues_.push_back({file_, place.empty() ? "whole file" : place, found, expected, fix});
}

ObjectReader::ObjectReader(json value, std::string place, Log log)
    : value_(std::move(value)), place_{std::move(place)}, log_{std::move(log)} {
  if (value_.is_object()) return;
  log_->add(place_, shown(value_), "an object { ... }", "write an object here");
  value_ = json::object();
}

const json* ObjectReader::find(const std::string& key) const {
  const auto member = value_.find(key);
  return member == value_.end() ? nullptr : &*member;
}

void ObjectReader::fault(const std::string& key, const std::string& expected, const std::string& fix) const {
  const json* member = find(key);
  log_->add(place_.empty() ? key : place_ + "." + key, member == nullptr ? "nothing" : shown(*member),
            expected, fix);
}

void ObjectReader::only(std::initializer_list<const char*> keys) const {
  for (const auto& [key, member] : value_.items()) {
    const bool known =
        std::any_of(keys.begin(), keys.end(), [&k = key](const char* name) { return k == name; });
    if (known) continue;
    const std::vector<std::string> names(keys.begin(), keys.end());
    fault(key, "one of " + joined(names), "mend the spelling or take it out");
  }
}

std::string ObjectReader::required_text(const std::string& key) const {
  const std::string found = text(key);
  if (!has(key)) fault(key, "a text", "add it");
  if (has(key) && value_[key].is_string() && found.empty())
    fault(key, "a text that is not empty", "fill it in");
  return found;
}

std::string ObjectReader::text(const std::string& key, const std::string& fallback) const {
  const json* member = find(key);
  if (member == nullptr) return fallback;
  if (member->is_string()) return member->get<std::string>();
  fault(key, "a text in quotation marks", "write a text");
  return fallback;
}

bool ObjectReader::flag(const std::string& key, bool fallback) const {
  const json* member = find(key);
  if (member == nullptr) return fallback;
  if (member->is_boolean()) return member->get<bool>();
  fault(key, "true or false", "write true or false");
  return fallback;
}

std::optional<double> ObjectReader::number(const std::string& key, Range range) const {
  const json* member = find(key);
  if (member == nullptr) return std::nullopt;
  const double value = member->is_number() ? member->get<double>() : std::nan("");
  if (value >= range.low && value <= range.high) return value;
  fault(key, fmt::format("a number from {} to {}", range.low, range.high), "write a number in this range");
  return std::nullopt;
}

std::optional<int> ObjectReader::whole(const std::string& key, Range range) const {
  const std::optional<double> value = number(key, range);
  if (!value) return std::nullopt;
  if (*value == std::floor(*value)) return static_cast<int>(*value);
  fault(key, "a whole number", "write a whole number");
  return std::nullopt;
}

std::optional<MonthDay> ObjectReader::month_day(const std::string& key) const {
  const json* member = find(key);
  if (member == nullptr) return std::nullopt;
  const auto day = member->is_string() ? parse_month_day(member->get<std::string>()) : std::nullopt;
  if (!day) fault(key, "a month and day such as \"11-01\"", "write MM-DD of a day that exists");
  return day;
}

std::size_t ObjectReader::choice(const std::string& key, const std::vector<std::string>& choices,
                                 std::size_t fallback) const {
  const json* member = find(key);
  if (member == nullptr) return fallback;
  const std::string word = member->is_string() ? member->get<std::string>() : std::string{};
  const auto at = std::find(choices.begin(), choices.end(), word);
  if (at != choices.end()) return static_cast<std::size_t>(at - choices.begin());
  fault(key, "one of " + joined(choices), "choose one of these");
  return fallback;
}

std::vector<std::size_t> ObjectReader::choices(const std::string& key,
                                               const std::vector<std::string>& choices) const {
  std::vector<std::size_t> found;
  const json* member = find(key);
  if (member == nullptr || !member->is_array() || member->empty()) {
    fault(key, "a list of " + joined(choices), "list at least one of these");
    return found;
  }
  for (const json& word : *member) {
    const auto at =
        word.is_string() ? std::find(choices.begin(), choices.end(), word.get<std::string>()) : choices.end();
    if (at == choices.end()) {
      fault(key, "only " + joined(choices), "choose from these");
      continue;
    }
    found.push_back(static_cast<std::size_t>(at - choices.begin()));
  }
  return found;
}

std::optional<ObjectReader> ObjectReader::object(const std::string& key) const {
  const json* member = find(key);
  if (member == nullptr) return std::nullopt;
  return ObjectReader{*member, place_.empty() ? key : place_ + "." + key, log_};
}

std::vector<ObjectReader> ObjectReader::objects(const std::string& key) const {
  std::vector<ObjectReader> found;
  const json* member = find(key);
  if (member == nullptr) return found;
  if (!member->is_array()) {
    fault(key, "a list [ ... ]", "write a list");
    return found;
  }
  const std::string stem = place_.empty() ? key : place_ + "." + key;
  for (std::size_t i = 0; i < member->size(); ++i)
    found.emplace_back((*member)[i], fmt::format("{}[{}]", stem, i), log_);
  return found;
}

}  // namespace aftercut::method
