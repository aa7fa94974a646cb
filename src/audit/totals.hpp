#pragma once
// What the plan says of all years together, against the replayed years: chances, quantiles, means, objective,
// choices.

#include <map>
#include <vector>

#include "facts.hpp"
#include "findings.hpp"

namespace aftercut::audit {

/// The replayed outcomes: runs[y].fields, years as in the plan.
struct Replays {
  std::vector<int> years;
  std::vector<std::vector<plan::FieldRun>> fields;    ///< [year][field]
  std::vector<std::vector<double>> untouched_on_top;  ///< [year][field]
  /// [year][field] as the plan states it; each part is within a cent of the replay's, so means are taken of
  /// these: roundings of many years do not add up.
  std::vector<std::vector<plan::CostParts>> stated;
  std::vector<std::map<int, plan::CostParts>> money;  ///< [year][12 year + month - 1] of all fields
  std::vector<std::vector<std::vector<plan::WinterMorning>>> winter;  ///< [year][field][week]
};

/// Sizes, years, orders of the decision; nothing below can be looked at when this finds a violation of size.
Findings check_shape(const farm::Problem& problem, const plan::PlannedYears& planned);
/// Barred methods, locks, what is said to be possible.
Findings check_choices(const Facts& facts, const plan::Plan& plan);
/// Means, chances and quantiles of every field's chosen method, and the objective.
Findings check_totals(const Facts& facts, const plan::Plan& plan, const Replays& replays);

}  // namespace aftercut::audit
