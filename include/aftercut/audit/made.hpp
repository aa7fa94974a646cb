#pragma once
// What a plan.json says of its own making: whether it is of this farm, this day and this version.

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/farm/farm.hpp"

namespace aftercut::audit {

/// What it does not say, or says otherwise than a plan does, is left out.
struct PlanMade {
  std::string version;
  std::optional<std::uint64_t> seed;
  std::optional<Date> as_of;
  std::vector<int> years;                     ///< of the weather
  std::map<std::string, std::string> inputs;  ///< SHA-256 of each file
};
PlanMade plan_made(const std::string& plan_json);
/// Nothing where the file cannot be read.
PlanMade plan_made_in(const std::filesystem::path& plan_json);

/// Files that are not as they were then, or were not there.
std::vector<std::string> changed_since(const PlanMade& made, const farm::Farm& farm);

}  // namespace aftercut::audit
