#pragma once
// A burn of the plan against the authority's call, the caps on area, drying days, wind and clock.

#include "field_replay.hpp"

namespace aftercut::audit {

struct BurnDay {
  bool called = false;
  int days_since_rain_reset = 0;  ///< large when it has not rained that much yet this season
  double wind_m_s = 0.0;
  double burned_today_ha = 0.0;  ///< before this burn
  double burned_season_ha = 0.0;
};
/// Season days since rain reset the drying, [season day].
std::vector<int> days_since_rain_reset(const burn::Limits& limits, const std::vector<double>& rain_mm);

Findings check_burn(const Facts& facts, const Place& place, const FieldReplay& field, const plan::Work& w,
                    const BurnDay& day);

}  // namespace aftercut::audit
