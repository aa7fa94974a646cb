#pragma once
// How a field's straw varies, by its yield map. Internal to the room.

#include "parts.hpp"

namespace aftercut::report {

/// Null where the field has no map.
const farm::YieldPattern* pattern_of(const farm::Farm& farm, std::size_t field);

/// "a fifth", "half"; "a small part" below 3.5 %.
std::string share_words(double share);

/// One or two sentences in the farm's units; empty without a map.
std::string variation_words(const farm::Farm& farm, std::size_t field);

/// What plan.json says of it; null without a map.
json variation_json(const farm::Farm& farm, std::size_t field);

}  // namespace aftercut::report
