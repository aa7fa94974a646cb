#pragma once
// Reasons and troubles in plain words, from the numbers of a finished plan.

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

/// Why the chosen method, against the next best, in money per hectare; and what the plan shares it with.
std::vector<std::string> reasons(const farm::Farm& farm, const plan::FieldPlan& field, std::size_t index,
                                 int cheapest_alone);
/// What is nobody's mistake and stands in the way of a good plan.
std::vector<plan::Trouble> troubles(const dispatch::Table& table, const plan::Plan& plan);

}  // namespace aftercut::scenario
