#pragma once
// A storm in the forecast: which fields are worth rushing in the hours left, and what else to see to.

#include <optional>

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/watch.hpp"

namespace aftercut::review {

/// So much rain in so many days makes a storm. Source: StormList (assumed)
inline constexpr double storm_list_mm = 10.0;
inline constexpr int storm_list_days = 5;

/// In the forecast from the as-of day on; none: no storm, or no forecast.
std::optional<plan::StormAhead> storm_ahead(const farm::Problem& problem);

/// The decision played on from the as-of day, in every year. None: no storm.
std::optional<plan::StormList> storm_list(const dispatch::Table& table, const plan::Decision& decision,
                                          int threads);

}  // namespace aftercut::review
