#pragma once
// An entry as JSON and back. Internal to the room.

#include <nlohmann/json.hpp>
#include <string>

#include "aftercut/core/result.hpp"
#include "aftercut/journal/entry.hpp"

namespace aftercut::journal {

using Json = nlohmann::json;  // keys sorted

/// Without its sum.
Json json_of(const Entry& entry);
/// The sum of a line: chained to the one before. `entry`: without a sum.
std::string sum_of(const std::string& sum_before, const Json& entry);
/// The whole line, with its end, and its sum.
struct Line {
  std::string text, sum;
};
Line line_of(const std::string& sum_before, const Entry& entry);

/// The entry, or everything in it that the format does not know; `sum` is not looked at.
Result<Entry> entry_of(const Json& json, const std::string& file, const std::string& place);

/// The kinds, in the order of entry.hpp's variant.
const std::vector<std::string>& kinds();

}  // namespace aftercut::journal
