#pragma once
// The worth of one more hour or limit, read back and looked at. Internal to the room.

#include "aftercut/plan/plan.hpp"
#include "facts.hpp"
#include "findings.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

/// Nothing where plan.json has null.
std::optional<plan::OneMore> read_one_more(JsonIn& in, const Json& root);
/// How much a tenth more is; that nothing is worth anything that the plan cannot use; weeks in which it
/// works. The worth itself is of years that are not written, and is not worked out again.
Findings check_one_more(const Facts& facts, const plan::PlannedYears& planned);

}  // namespace aftercut::audit
