#pragma once
// Each implement at its work with the weakest tractor that pulls it: power, rate, fuel, slip, true cost.

#include <optional>
#include <vector>

#include "aftercut/farm/power.hpp"
#include "aftercut/machinery/cost.hpp"

namespace aftercut::farm {

struct MachineRow {
  Job job;  ///< on the field that asks most of it
  std::optional<std::size_t>
      tractor;           ///< of the farm; none: the outfit's own, none needed, or none strong enough
  bool refused = false;  ///< needs a tractor of the farm, and none pulls it
  PowerAsked power;      ///< of that tractor; refused: of the one that comes nearest
  HaPerHour rate;
  LitrePerHa fuel, fuel_low,
      fuel_high;  ///< from the power's band and the band of fuel itself; 0 without a tractor
  std::optional<double> slip, traction_efficiency;  ///< shares; none for tracks and where nothing is pulled
  bool spins = false;                               ///< no slip up to 50 % gives the pull
  machinery::HourlyCost hourly;                     ///< tractor and implement of the farm together
  Money fuel_per_hour;
};

/// Own machines and hired outfits, one row for each implement and kind of ground that it works on.
std::vector<MachineRow> machine_table(const Farm& farm);

}  // namespace aftercut::farm
