#pragma once
// Plans beside one another: figures and changes of method, as JSON and in words. Internal to the room.

#include <string>
#include <vector>

#include "aftercut/plan/what_if.hpp"
#include "parts.hpp"

namespace aftercut::report {

json figures_json(const plan::WholeFarm& w, const plan::WholeFarm& base);
json changes_json(const farm::Farm& farm, const std::vector<plan::MethodChange>& changes);
/// "A2, B1 from “bale” to “chop, disk”": fields that change alike together.
std::string change_words(const farm::Farm& farm, const std::vector<plan::MethodChange>& changes);

}  // namespace aftercut::report
