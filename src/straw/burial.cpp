#include "aftercut/straw/burial.hpp"

#include <algorithm>

#include "aftercut/core/require.hpp"

namespace aftercut::straw {
namespace {

/// 0 for straw that buries as the tables say, 1 for long straw.
double how_long(double length_mm, const BurialSettings& s) {
  return std::clamp((length_mm - s.short_mm) / (s.long_mm - s.short_mm), 0.0, 1.0);
}

}  // namespace

double length_after_combine(double cut_height_cm, double stubble_share, bool chopped,
                            const BurialSettings& settings) {
  require(cut_height_cm >= 0.0 && stubble_share >= 0.0 && stubble_share <= 1.0,
          "stubble has a height and a share from 0 to 1");
  const double rest_mm = chopped ? settings.combine_chop_mm : settings.combine_straw_mm;
  return stubble_share * 10.0 * cut_height_cm + (1.0 - stubble_share) * rest_mm;
}

double buried_share(double usual_share, double usual_depth_cm, double depth_cm, double length_mm,
                    const BurialSettings& settings) {
  if (usual_depth_cm <= 0.0 || usual_share <= 0.0) return usual_share;
  const double depth =
      depth_cm > 0.0 ? std::clamp(depth_cm, settings.least_cm, settings.most_cm) : usual_depth_cm;
  const double at_depth = usual_share + settings.per_cm * (depth - usual_depth_cm);
  const double by_length = 1.0 - (1.0 - settings.long_burial) * how_long(length_mm, settings);
  return std::clamp(at_depth, 0.0, 1.0) * by_length;
}

double straw_for_passes(double straw_kg_per_ha, double length_mm, const BurialSettings& settings) {
  return straw_kg_per_ha * (1.0 + (settings.long_weight - 1.0) * how_long(length_mm, settings));
}

}  // namespace aftercut::straw
