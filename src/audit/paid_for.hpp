#pragma once
// What each price of the farm is paid for, counted from the stated work and the replayed years.

#include "aftercut/plan/reasons.hpp"
#include "totals.hpp"

namespace aftercut::audit {

/// Units of the whole farm, mean over the years, that the price is paid for.
double paid_units(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays,
                  plan::PriceOf of, int implement);
/// Today's price as entered; nothing where the farm has no such price.
std::optional<double> entered_price(const farm::Farm& farm, plan::PriceOf of, int implement);
/// By how much a year costs more when the price of one unit rises by one.
double weight_of_price(const farm::Farm& farm, plan::PriceOf of);
bool is_straw_price(plan::PriceOf of);

}  // namespace aftercut::audit
