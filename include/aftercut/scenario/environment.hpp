#pragma once
// What a method leaves for the next crop, the air and the birds, summed up from the runs of its weather years
// (docs/environment.md).

#include <cstddef>
#include <vector>

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/decision.hpp"
#include "aftercut/plan/environment.hpp"

namespace aftercut::scenario {

/// Straw on top of a field that nobody touches after harvest [year][season day], the morning of the day; 0
/// before the first morning on which it may be worked.
using Untouched = std::vector<std::vector<double>>;
Untouched untouched_of(const dispatch::Table& table, std::size_t field);

struct EnvironmentInput {
  const farm::Farm* farm = nullptr;
  std::size_t field = 0;
  const std::vector<plan::FieldRun>* runs = nullptr;  ///< [year] with next_crop filled
  const std::vector<std::size_t>* shown = nullptr;    ///< years behind p10 and p90
  const Untouched* untouched = nullptr;
};
plan::Environment environment_of(const EnvironmentInput& input);

/// Growers' rule of thumb for planting late, far above the trials' figure. Source: CapitalPress (read): 100
/// lb/acre a day
inline constexpr double late_rule_of_thumb_kg_per_ha_day = 112.085;

}  // namespace aftercut::scenario
