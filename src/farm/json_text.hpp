#pragma once
// JSON text into a value: syntax faults with line and column, keys that occur twice.

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "aftercut/core/result.hpp"

namespace aftercut::farm {

using Json = nlohmann::json;

/// Issues: not UTF-8, syntax, a number beyond double, one key twice in an object.
Result<Json> parse_json(const std::string& text, const std::string& file);

/// The same whatever the order of entries: lists of objects sorted by their `id` or `name`, keys sorted.
std::string canonical(const Json& value);

}  // namespace aftercut::farm
