#pragma once
// What was written down and looks odd, from the season so far by own rules, against what plan.json tells.

#include "aftercut/plan/plan.hpp"
#include "facts.hpp"
#include "findings.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

/// plan.json's `so_far.doubts`; none where nothing has been done or seen.
std::vector<farm::Doubt> read_doubts(JsonIn& in, const Json& root);

Findings check_doubts(const Facts& facts, const plan::Plan& plan);

}  // namespace aftercut::audit
