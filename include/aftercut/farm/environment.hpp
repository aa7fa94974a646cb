#pragma once
// Which sets of factors the farm's figures of air, next crop and birds go by, and what is known of a field's
// disease.

#include <optional>
#include <string>

#include "aftercut/burn/emissions.hpp"
#include "aftercut/burn/methane.hpp"
#include "aftercut/core/date.hpp"
#include "aftercut/straw/carry_over.hpp"

namespace aftercut::farm {

/// How a winter flood counts in the methane of the next rice season. by_dates: as flooded ground if it ended
/// at most 30 days before cultivation, else as ground dry since then. flooded: every winter flood of more
/// than 30 days counts as flooded ground. Both results are told.
enum class WinterFlood { by_dates, flooded };

/// Nutrients that a fire takes from the straw it consumes; two sources disagree.
enum class FireLosses { part_of_each, nitrogen_only };
struct NutrientShares {
  double n = 0.0, p = 0.0, k = 0.0;
};
/// Source: Mandal2004 (read second-hand) part of each; Roberts2022 (read) nitrogen only, P and K stay as ash.
constexpr NutrientShares lost_in_fire(FireLosses losses) {
  return losses == FireLosses::part_of_each ? NutrientShares{0.80, 0.25, 0.21}
                                            : NutrientShares{1.0, 0.0, 0.0};
}

struct EnvironmentSettings {
  burn::FactorSet burn_factors = burn::FactorSet::ipcc2006;
  burn::WarmingSet warming = burn::WarmingSet::ar6;
  burn::DieselSet diesel = burn::DieselSet::epa_hub;
  burn::MethaneSettings methane;
  WinterFlood winter_flood = WinterFlood::by_dates;
  FireLosses fire_losses = FireLosses::part_of_each;
  straw::WasteGrain waste_grain;
  MonthDay late_autumn{12, 1};  ///< day of the waste grain's figure. Source: WasteGrainLoss (assumed)
};

/// What is known of stem rot or sheath spot on a field.
struct DiseaseHistory {
  bool entered = false;
  double weight = 1.0;  ///< 0 none, 1 heavy; a field of unknown history counts as heavy
};
/// Weight of `disease_history: some`. Source: CarryOver (assumed)
inline constexpr double some_disease = 0.5;

/// Prices of nutrients by the element, for what replacing them would cost; none: told without money.
struct NutrientPrices {
  std::optional<double> n_per_kg, p_per_kg, k_per_kg;
  [[nodiscard]] bool any() const { return n_per_kg || p_per_kg || k_per_kg; }
};

}  // namespace aftercut::farm
