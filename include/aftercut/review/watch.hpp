#pragma once
// Readiness through the season: each field's chance on the day of a plan, what changed since the last look,
// and what needs a decision.

#include <string>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"
#include "aftercut/plan/watch.hpp"

namespace aftercut::review {

/// Days before a last safe start on which it is warned of. Source: StartWarning (assumed)
inline constexpr int start_warning_days = 7;

plan::Look look_at(const farm::Problem& problem, const plan::Plan& plan);
/// With one more look, in the place of one of the same day; rising by day.
std::vector<plan::Look> with(std::vector<plan::Look> looks, plan::Look look);
/// The last look before a day; null: none.
const plan::Look* before(const std::vector<plan::Look>& looks, Date day);

/// readiness.jsonl: one look a line. Issues name `file` and the line.
Result<std::vector<plan::Look>> read_looks(const std::string& text, const std::string& file);
/// Read back, they are the same looks; chances are kept to 4 decimals.
std::string looks_text(const std::vector<plan::Look>& looks);

std::vector<plan::Call> calls_of(const plan::Look& look);
std::vector<plan::LookChange> changes_between(const plan::Look& before, const plan::Look& now);

}  // namespace aftercut::review
