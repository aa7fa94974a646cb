#pragma once
// What a method puts in the air, from the replayed years: gases of burning, methane and nitrous oxide of the
// next rice crop, diesel, and their CO2 equivalents, each with its range. What a kg burned, a litre or a
// hectare of rice gives off is data of room burn; sums, ranges, means and quantiles are worked out here.

#include <vector>

#include "aftercut/plan/plan.hpp"
#include "next_crop.hpp"

namespace aftercut::audit {

Findings check_air(const Facts& facts, const Place& place, int field, const plan::MethodOutcome& said,
                   const std::vector<CropYear>& years);

}  // namespace aftercut::audit
