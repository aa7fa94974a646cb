#pragma once
// Hired outfits: there or not, whose turn it is, what a least area costs. Own reading of
// docs/rules-of-work.md, "Hired outfits".

#include "field_replay.hpp"

namespace aftercut::audit {

/// [implement] the season day from which it is there in that weather year; nothing: it does not come.
std::vector<std::optional<int>> arrivals(const Facts& facts, const plan::Decision& decision, int year);

/// The outfit of the stretch has come, and no field stands before this one in its own order.
Findings check_hired(const Facts& facts, const Place& place, const plan::Work& work,
                     const std::vector<std::optional<int>>& arrived, const std::vector<FieldReplay>& fields);

/// [field] what outfits add to its hire that did less than the area they charge for, cents.
std::vector<std::int64_t> charged_for_least_area(const Facts& facts, const std::vector<FieldReplay>& fields);

/// The outfit that baled takes the bales off: the day on which they are gone, when hauling is the current
/// step.
std::optional<int> bales_gone(const farm::Farm& farm, const Standing& standing);

/// The contracts leave this implement to the operation. Empty: yes.
std::string contract_fault(const farm::Farm& farm, const method::Operation& op, int implement);

}  // namespace aftercut::audit
