#pragma once
// Bales of a field over the years, and what hired outfits' terms do to a method, in numbers and words.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::scenario {

/// Bales of a field with these outcomes, one a year; loads and twine for the middle count.
plan::BaleCount count_bales(const farm::Farm& farm, const farm::Field& field,
                            const std::vector<plan::FieldRun>& runs);

/// "about 310 bales, 9 loads of 36, 13.2 km of twine"
std::string bale_words(const farm::Farm& farm, const plan::BaleCount& count);

/// Terms that this decision does not meet or pays for: too little area for an outfit, and in how many of
/// these years it does not come at all.
std::vector<std::string> hire_notes(const dispatch::Table& table, const plan::Decision& decision,
                                    const method::Recipe& recipe);

}  // namespace aftercut::scenario
