#pragma once
// Room audit, lead header. Purpose: to find what is wrong with a plan. Takes a problem, a plan and the work
// of every year; replays each year with its own plain code and lists every violation. Shares no code with
// dispatch, search or bound.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::audit {

struct Violation {
  std::string rule;   ///< fixed name, docs/audit.md, e.g. "double-booked machine"
  std::string where;  ///< year, day, field, machine
  std::string found, expected;
};

struct Audit {
  std::vector<Violation> violations;  ///< at most 200 listed
  std::size_t count = 0;              ///< all that were found
  std::size_t checks = 0;             ///< single comparisons made
  [[nodiscard]] bool ok() const { return count == 0; }
};

Audit check(const farm::Problem& problem, const plan::PlannedYears& planned);

/// Reads plan.json and plan-years.jsonl (beside it) back into values; ids are looked up in the problem's
/// farm.
Result<plan::PlannedYears> read_plan(const std::filesystem::path& plan_json, const farm::Problem& problem);
/// Its methods and orders alone, whatever else of the plan this version would not read any more.
Result<plan::Decision> read_decision(const std::filesystem::path& plan_json, const farm::Problem& problem);

}  // namespace aftercut::audit
