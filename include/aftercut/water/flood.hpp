#pragma once
// Room water, lead header. Purpose: what a wanted water level takes. Takes areas, depths, soil water and
// flow; gives volumes, days of flow, labour and money. Leaves out the daily balance (soil) and the calendar.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/ids.hpp"
#include "aftercut/core/quantity.hpp"

namespace aftercut::water {

/// A depth over an area [m3]; 1 mm over 1 ha is 10 m3.
CubicMetre volume(Millimetre depth, Hectare area);
Millimetre depth(CubicMetre volume, Hectare area);
double acre_feet(CubicMetre volume);  ///< 1 acre-foot = 1233.48184 m3

/// The canal or wells that serve the farm.
struct Supply {
  CubicMetrePerDay most_flow;               ///< all fields together
  MonthDay on{9, 1}, off{2, 1};             ///< days of the year on which water can be had, both included
  Money per_m3;                             ///< price of water
  Money per_ha_once;                        ///< a charge for each field flooded
  double labour_min_per_ha_fill = 6.0;      ///< boards and checks at filling. Source: FloodLabour (invented)
  double labour_min_per_ha_drawdown = 4.0;  ///< pulling boards. Source: FloodLabour (invented)
  double storm_rain_mm = 25.0;  ///< more rain in a day asks for a round. Source: StormRound (assumed)
  double labour_min_per_ha_storm = 1.5;  ///< of such a round. Source: StormRound (assumed)
  double seepage_mm_per_day =
      1.0;  ///< into a field whose neighbour is under water. Source: Seepage (assumed)
  std::optional<double> drawdown_ha_per_day;  ///< most area whose boards come out on a day; none: no limit
};

/// Water to reach `target` on top of soil that still takes up `soil_need` [mm]. Losses of the fill day itself
/// are left out.
Millimetre fill_need(Millimetre target, Millimetre ponded, Millimetre soil_need);

/// Days of flow for this need at this flow, rounded up.
int fill_days(CubicMetre need, CubicMetrePerDay flow);

}  // namespace aftercut::water
