#pragma once
// Inside room planner: what a water lease can bring a field at most.

#include "histories.hpp"

namespace aftercut::planner {

/// The lease less the least canal water that keeps water standing on each of its days, in cents and never
/// below 0, when the boards went in as in one of these histories. 0 where there is no lease.
double most_lease_cents(const dispatch::Table& table, std::size_t field, const method::Recipe& recipe,
                        const std::vector<History>& boards_in);

}  // namespace aftercut::planner
