#pragma once
// plan-years.jsonl, one line a year. Internal to the room.

#include "aftercut/plan/decision.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

/// The thirteen parts of a cost; `in_cents`: whole cents, else money with two decimals.
plan::CostParts read_cost(JsonIn& in, const Json& parts, const std::string& place, bool in_cents);
/// Every year of the file's text.
std::vector<plan::YearRun> read_years(JsonIn& in, const std::string& text);
/// [test] every year of the plan's fall-backs; a file without lines has none.
std::vector<std::vector<plan::YearRun>> read_fall_back_years(JsonIn& in, const std::string& text,
                                                             std::size_t tests);

}  // namespace aftercut::audit
