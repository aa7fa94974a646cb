#pragma once
// A planned region held against its own limits: shares, sums, bounds. What each farm does is held against its
// rules farm by farm, by check().

#include "aftercut/audit/audit.hpp"
#include "aftercut/plan/region.hpp"

namespace aftercut::audit {

Audit check_region(const plan::Region& region);

}  // namespace aftercut::audit
