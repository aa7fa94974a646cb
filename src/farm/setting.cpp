#include "setting.hpp"
#include "aftercut/core/json_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "faults.hpp"

namespace aftercut::farm {
namespace {

constexpr const char* whole_path = "keys joined by points and a value, such as prices.straw=40 USD/t";

std::string trimmed(const std::string& text) {
  const auto from = text.find_first_not_of(" \t\n");
  if (from == std::string::npos) return "";
  return text.substr(from, text.find_last_not_of(" \t\n") - from + 1);
}

Issue no_setting(const std::string& found, std::string expected, std::string fix) {
  return {"command line", "--set", in_quotes(found), std::move(expected), std::move(fix)};
}

/// The parts of a path; empty where one of them is.
std::vector<std::string> keys_of(const std::string& path) {
  const char between = path.starts_with('/') ? '/' : '.';
  std::vector<std::string> keys;
  for (std::size_t from = between == '/' ? 1 : 0; from <= path.size();) {
    const auto to = std::min(path.find(between, from), path.size());
    if (to == from) return {};
    keys.push_back(path.substr(from, to - from));
    from = to + 1;
  }
  return keys;
}

Json value_of(const std::string& text) {
  return json_text_faults(text, "").empty() ? Json::parse(text) : Json(text);
}

std::string name_of_entry(const Json& entry) {
  for (const char* key : {"id", "name"})
    if (entry.is_object() && entry.contains(key) && entry[key].is_string())
      return entry[key].get<std::string>();
  return "";
}

/// The entry of a list by id, name or place.
Json* entry_of(Json& list, const std::string& key) {
  for (Json& entry : list)
    if (name_of_entry(entry) == key) return &entry;
  std::size_t place = 0;
  const auto [end, error] = std::from_chars(key.data(), key.data() + key.size(), place);
  const bool number = error == std::errc{} && end == key.data() + key.size();
  return number && place < list.size() ? &list[place] : nullptr;
}

std::string entries_of(const Json& list) {
  std::vector<std::string> names;
  for (const Json& entry : list) {
    const std::string name = name_of_entry(entry);
    names.push_back(name.empty() ? std::to_string(names.size()) : name);
  }
  return names.empty() ? "nothing: the list is empty" : "one of " + listed(names);
}

/// Where a key leads from a value; an object is made where none was. Null: nowhere.
Json* step_into(Json& at, const std::string& key) {
  if (at.is_null()) at = Json::object();
  if (at.is_array()) return entry_of(at, key);
  return at.is_object() ? &at[key] : nullptr;
}

std::optional<Issue> make(Json& document, const Setting& setting) {
  const std::vector<std::string> keys = keys_of(setting.path);
  if (keys.empty()) return no_setting(setting.path, whole_path, "write every key of the path");
  if (keys.size() > deepest_json)
    return no_setting(setting.path, fmt::format("a path of at most {} keys", deepest_json),
                      "look the path up in farm.json");
  Json* at = &document;
  for (std::size_t k = 0; k < keys.size(); ++k) {
    const bool takes_out = k + 1 == keys.size() && value_of(setting.value).is_null() && at->is_object();
    if (takes_out) {
      at->erase(keys[k]);
      return std::nullopt;
    }
    Json* next = step_into(*at, keys[k]);
    if (next == nullptr)
      return no_setting(setting.path,
                        at->is_array() ? entries_of(*at) + " after " + in_quotes(k == 0 ? "" : keys[k - 1])
                                       : "a path that ends at " + in_quotes(keys[k == 0 ? 0 : k - 1]),
                        "look the path up in farm.json");
    at = next;
  }
  *at = value_of(setting.value);
  return std::nullopt;
}

}  // namespace

Result<std::vector<Setting>> read_settings(const std::string& text) {
  std::vector<Setting> settings;
  Issues issues;
  for (std::size_t from = 0; from <= text.size();) {
    const auto to = std::min(text.find(';', from), text.size());
    const std::string part = trimmed(text.substr(from, to - from));
    from = to + 1;
    const auto equals = part.find('=');
    const bool whole = equals != std::string::npos && !trimmed(part.substr(0, equals)).empty() &&
                       !trimmed(part.substr(equals + 1)).empty();
    if (whole)
      settings.push_back({trimmed(part.substr(0, equals)), trimmed(part.substr(equals + 1))});
    else
      issues.push_back(no_setting(part, whole_path, "write path=value; several with ; between them"));
  }
  if (!issues.empty()) return issues;
  return settings;
}

Result<Json> with_settings_made(Json document, const std::vector<Setting>& settings) {
  Issues issues;
  for (const Setting& setting : settings)
    if (auto issue = make(document, setting)) issues.push_back(std::move(*issue));
  if (!issues.empty()) return issues;
  return document;
}

}  // namespace aftercut::farm
