#pragma once
// Sentences about trade-offs. Internal to the room.

#include <string>
#include <vector>

#include "aftercut/report/trade_offs.hpp"

namespace aftercut::report {

/// How the plans were found, what the surest, the cleanest and the one with most straw baled cost beside the
/// cheapest, which fields stay under the wanted chance everywhere, and faults of audits.
std::vector<std::string> trade_off_words(const TradeOffsShown& shown);

}  // namespace aftercut::report
