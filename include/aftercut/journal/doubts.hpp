#pragma once
// What was written down counts, however odd it is; what is odd about it is told.

#include <string>
#include <vector>

#include "aftercut/farm/doubt.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/journal/entry.hpp"

namespace aftercut::journal {

/// Of the problem's season so far: by field, then by the first entry.
std::vector<farm::Doubt> doubts_of(const farm::Problem& problem);
/// The same once the entries are put into the problem; weather that is missing is left aside.
std::vector<farm::Doubt> doubts_in(farm::Problem problem, const std::vector<Entry>& standing);

/// "A4: 46 ha of chop written down on 40 ha (entries 12, 15): the pass counts as done; ..."
std::string doubt_words(const farm::Farm& farm, const farm::Doubt& doubt);

}  // namespace aftercut::journal
