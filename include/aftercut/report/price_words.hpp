#pragma once
// Today's prices as farm.json writes them.

#include <optional>
#include <string>

#include "aftercut/farm/farm.hpp"

namespace aftercut::report {

/// "28 USD/t"; `what`: one of farm::price_names(). None: the farm has no such price.
std::optional<std::string> price_now(const farm::Farm& farm, const std::string& what);

}  // namespace aftercut::report
