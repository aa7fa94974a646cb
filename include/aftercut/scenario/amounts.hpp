#pragma once
// What a year's work takes and gives, counted by what its prices are paid for.

#include <optional>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/journal/state.hpp"
#include "aftercut/plan/decision.hpp"
#include "aftercut/plan/reasons.hpp"

namespace aftercut::scenario {

/// What one hired outfit is paid for, a charge for its least area included.
struct HiredAmount {
  double ha = 0.0, hours = 0.0, tonnes = 0.0, bales = 0.0;
};

/// Of the whole farm, means over the runs given.
struct Amounts {
  double straw_t = 0.0, straw_ha = 0.0, straw_bales = 0.0;  ///< sold
  double diesel_l = 0.0, water_m3 = 0.0;
  std::vector<HiredAmount> hired;  ///< [implement]
};

using SoFar = std::optional<journal::State>;

/// Of what is to come in one run. Bales of a field are counted as of one pass.
Amounts amounts_of(const farm::Farm& farm, const plan::YearRun& run, const SoFar& so_far);
/// `sum` with a share of `more` added.
Amounts plus_share(Amounts sum, const Amounts& more, double share);

/// How many units a price is paid for, and how the farm's cost changes with the price: -1 for incomes, 1 plus
/// the lubricant's share for diesel, else 1.
double amount_of(const Amounts& amounts, plan::PriceOf of, int implement);
double cost_per_unit(const farm::Farm& farm, plan::PriceOf of);
/// Today's price, money by the unit of plan::price_words.
double price_of(const farm::Farm& farm, plan::PriceOf of, int implement);

}  // namespace aftercut::scenario
