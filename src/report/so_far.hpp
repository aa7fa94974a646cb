#pragma once
// The season so far and what moved against the plan that stood, for plan.json and the terminal. Internal to
// the room.

#include "aftercut/journal/state.hpp"
#include "parts.hpp"

namespace aftercut::report {

/// What people call the method; "no method" where the id is none of the book's.
std::string method_name(const farm::Farm& farm, const std::string& id);
/// plan.json's `so_far` and `again`.
json so_far_json(const farm::Problem& problem, const journal::State& state,
                 const std::vector<farm::Doubt>& doubts);
json again_json(const farm::Farm& farm, const plan::Again& again);
/// Empty where nothing has been done or seen, or no plan stood.
std::string so_far_text(const farm::Problem& problem);
std::string again_text(const farm::Farm& farm, const plan::Plan& plan);

}  // namespace aftercut::report
