#pragma once
// What waiting takes: the last safe start of every method on every field, and the price of one week. The plan
// is dispatched with that one field switched and held back.

#include <cstdint>
#include <optional>
#include <vector>

#include "aftercut/scenario/outcomes.hpp"

namespace aftercut::scenario {

/// The first day on which anything can be done on the field.
int first_possible_day(const dispatch::Table& table, std::size_t field);

/// [field][recipe] the last season day (weekly grid) on which the method's first step may start and keep the
/// wanted chance, before its fall-back takes over; none: not even at once, or nothing is due.
std::vector<std::vector<std::optional<int>>> last_safe_starts(
    const OutcomeInput& input, const std::vector<std::vector<plan::MethodOutcome>>& outcomes);

/// [field] what the farm pays more, mean over all years in cents, if the field's first step waits until a
/// week after the first possible day; none: no method.
std::vector<std::optional<std::int64_t>> cost_of_a_week(const OutcomeInput& input);

}  // namespace aftercut::scenario
