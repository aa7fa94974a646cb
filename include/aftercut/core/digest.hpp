#pragma once
// SHA-256 of a text, for the list of inputs in plan.json.

#include <string>
#include <string_view>

namespace aftercut {

std::string sha256_hex(std::string_view text);

}  // namespace aftercut
