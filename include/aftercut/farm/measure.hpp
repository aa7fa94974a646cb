#pragma once
// Amounts as people write them.

#include <optional>
#include <string>
#include <string_view>

namespace aftercut::farm {

/// "12.5 acre" in `unit`, whatever unit of the same thing it was written in; nothing when it is not a finite
/// number with such a unit.
std::optional<double> measured(std::string_view text, const std::string& unit);

/// The whole text as one finite number.
std::optional<double> plain_number(std::string_view text);

}  // namespace aftercut::farm
