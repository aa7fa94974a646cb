#pragma once
// bound.json read back, and held against the bound that its multipliers give when they are put in again.
// What it says is looked at in audit::check.

#include <filesystem>
#include <optional>

#include "aftercut/audit/audit.hpp"

namespace aftercut::audit {

/// What stands beside a plan.json of its bound.
struct BoundRead {
  std::optional<plan::BoundProof> proof;  ///< none: no such file, or it is broken
  Audit found;  ///< faults of bound.json; a gap in plan.json that is not plan less bound
};
BoundRead read_bound(const std::filesystem::path& plan_json, const farm::Problem& problem,
                     const plan::Plan& plan);

/// The bound can be worked out again from these multipliers: years of the plan, known machines, people and
/// days, each once, finite and 0 or more.
bool can_be_put_in(const farm::Problem& problem, const plan::Plan& plan, const plan::BoundProof& proof);

/// What is written, and what its multipliers give when the bound is worked out again.
Audit compare_bounds(const farm::Farm& farm, const plan::BoundProof& written, const plan::BoundProof& again);

/// The findings of both.
Audit both(Audit a, const Audit& b);

}  // namespace aftercut::audit
