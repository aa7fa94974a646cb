#pragma once
// Changes of a scenario as a grower would say them.

#include <string>
#include <vector>

#include "aftercut/farm/change.hpp"
#include "aftercut/farm/farm.hpp"

namespace aftercut::report {

/// "A1: “bale” and nothing else", "straw at 40 USD/t", "tracked, 220 kW not there 12 Oct to 18 Oct". Names
/// come from the farm, ids stand where it has none.
std::string change_words(const farm::Farm& farm, const farm::Change& change);
/// All of them with "; " between; "no change" without one.
std::string scenario_words(const farm::Farm& farm, const farm::Scenario& scenario);

}  // namespace aftercut::report
