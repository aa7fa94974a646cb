#pragma once
// A stack plan as a table for the terminal and as map lines.

#include <filesystem>
#include <string>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/stacks.hpp"

namespace aftercut::report {

/// Stacks with their bales, room, size and faults; bales without a stack; cautions. Fits 100 columns.
std::string stacks_text(const farm::Farm& farm, const plan::StackPlan& plan);

/// Stack places and a line from each field to each of its stacks (GeoJSON).
Result<std::filesystem::path> write_stacks(const farm::Farm& farm, const plan::StackPlan& plan,
                                           const std::filesystem::path& file);

}  // namespace aftercut::report
