#pragma once
// The lower bound's proof against the farm and the replayed plan. Internal to the room.

#include "aftercut/audit/bound_proof.hpp"
#include "totals.hpp"

namespace aftercut::audit {

inline constexpr const char* bound_file = "bound.json";

/// Everything that a stored bound says, but for what only a new search of every field could tell.
Findings check_bound(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays);

/// Years as in the plan; multipliers of known things and days, each once, finite and 0 or more.
Findings check_multipliers(const farm::Farm& farm, const plan::Plan& plan, const plan::BoundProof& proof);

/// No field is charged more than the plan's own work on it pays, its minutes at the multipliers.
Findings check_against_work(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays);

/// The id of the machine or person; its number where the farm has none.
std::string name_of(const farm::Farm& farm, plan::Resource resource, int index);

}  // namespace aftercut::audit
