#include "aftercut/straw/carry_over.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::straw {

double carried_share(const CarriedStraw& s) {
  require(s.on_top >= 0.0 && s.in_ground >= 0.0 && s.flooded_days >= 0, "straw and days are not negative");
  if (s.untouched_on_top <= 0.0) return 0.0;
  const double share = (s.on_top + carried_in_ground * s.in_ground) / s.untouched_on_top;
  const double flooded = std::min(1.0, s.flooded_days / full_flood_days);
  return std::min(1.0, share) * (1.0 - most_off_by_flood * flooded);
}

double stem_rot_weight(double stems_percent) {
  constexpr double diseased_percent = 15.0;
  return std::clamp(stems_percent / diseased_percent, 0.0, 1.0);
}

double waste_grain_left(const WasteGrain& grain, int days, const GrainHandling& h) {
  double share = h.burned ? grain_after_fire : 1.0;
  if (h.disked) {
    share *= grain_after_disking;
  } else {
    if (h.rolled) share *= grain_after_rolling;
    if (h.chopped && !h.rolled) share *= grain_after_chopping;
  }
  return grain.at_harvest_kg_per_ha * share * std::exp(-grain.loss_per_day * std::max(0, days));
}

}  // namespace aftercut::straw
