#pragma once
// How sure the user wants each field's seedbed, and what a late day costs (docs/risk.md).

#include <cstddef>
#include <optional>

#include "aftercut/farm/farm.hpp"

namespace aftercut::farm {

/// Wanted chance of the field being ready by its planting date: its own, else the farm's.
double wanted_chance(const Farm& farm, const Field& field);
/// Years out of so many in which a field has to be ready for a chance.
int years_wanted(double chance, std::size_t years);
/// Some seedbed is wanted on the field.
bool seedbed_due(const Field& field);
/// Each field keeps to its wanted chance; else the chance is only told.
bool chance_binds(const Target& target);
/// Late days cost money; else only ground that stays unplanted does.
inline bool lateness_costs(const Target& target) { return target.risk != Risk::chance; }
/// The price of a late day that the field goes by [money/ha]; none: its late curve and the price of grain.
inline std::optional<Money> late_price(const Farm& farm, const Field& field) {
  return field.next.own_late_curve ? std::nullopt : farm.target.late_per_ha_day;
}

}  // namespace aftercut::farm
