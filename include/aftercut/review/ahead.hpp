#pragma once
// The days ahead from one morning: the plan that stands played on, held against the looks before it; and the
// looks as the farm folder keeps them.

#include <filesystem>
#include <vector>

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/plan.hpp"
#include "aftercut/plan/watch.hpp"
#include "aftercut/scenario/base_plan.hpp"

namespace aftercut::review {

/// In the farm folder, one look a line, rising by day.
inline constexpr const char* looks_file = "readiness.jsonl";

/// No looks: none were kept yet.
Result<std::vector<plan::Look>> looks_in(const std::filesystem::path& folder);

/// With this look in the place of one of its day; all that are then kept. One writer at a time.
Result<std::vector<plan::Look>> keep_look(const std::filesystem::path& folder, const plan::Look& look);

/// `stands`: the decision of the plan that stands, of these fields. A method that can no longer be done is
/// taken as its fall-back. Of `options` the seed, the threads and the progress count.
plan::Ahead look_ahead(const farm::Problem& problem, const plan::Decision& stands,
                       const std::vector<plan::Look>& looks, const scenario::SearchOptions& options);

}  // namespace aftercut::review
