#include "put_right.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace aftercut::journal {
namespace {

constexpr double cover_per_kg = 0.0005;                  // of straw::cover
constexpr double least_cover = 0.02, most_cover = 0.98;  // beyond, a count says little of the mass
constexpr double least_seedbed_spread_mm = 0.5;
constexpr double far_out = 8.0;  // standard deviations, from which the tail's series holds

/// Mean of what lies above `a` of a standard normal. Source: JohnsonKotzBalakrishnan1994 (recalled)
double mean_above(double a) {
  if (a > far_out) return a + 1.0 / a;
  const double density = std::exp(-0.5 * a * a) / std::sqrt(2.0 * std::numbers::pi);
  return density / (0.5 * std::erfc(a / std::numbers::sqrt2));
}

struct Weighed {
  double times = 1.0, spread = 0.0;
};
/// The thought and the seen mass, each with its spread as a share: weighed by their variances in logarithms.
Weighed weigh(double thought, double thought_spread, double seen, double seen_spread) {
  const double v = thought_spread * thought_spread, w = seen_spread * seen_spread;
  return {std::exp(v / (v + w) * std::log(seen / thought)), std::sqrt(v * w / (v + w))};
}

/// The seedbed's water below which the slow part of the field is workable [mm].
double workable_below(const soil::GroundOf<double>& g) {
  if (g.wet_limit >= g.seedbed_drained) return g.wet_limit;
  return (g.wet_limit - g.slow_share * g.seedbed_drained) / (1.0 - g.slow_share);
}

}  // namespace

Cut known_above(double mean, double spread, double limit) {
  const double a = (limit - mean) / spread, up = mean_above(a);
  return {mean + spread * up, spread * std::sqrt(std::max(0.0, 1.0 + a * up - up * up))};
}

Cut known_below(double mean, double spread, double limit) {
  const Cut mirrored = known_above(-mean, spread, -limit);
  return {-mirrored.mean, mirrored.spread};
}

std::vector<Difference> put_straw_right(FieldState& field, season::FieldYear& life,
                                        const farm::FieldSeen& seen, int day) {
  std::vector<Difference> out;
  const auto go_on_with = [&](Seen what, double model, double saw, const Weighed& w) {
    life.find_straw(w.times);
    field.straw_spread_then = field.straw_spread = w.spread;
    field.straw_loss_since = 0.0;
    const double used = what == Seen::cover ? life.cover() : life.pools().on_top();
    out.push_back({seen.field, day, what, model, saw, used});
  };
  if (life.pools().on_top() <= 0.0) return out;
  if (seen.cover) {
    const double c = std::clamp(*seen.cover, least_cover, most_cover), bare = -std::log(1.0 - c);
    go_on_with(Seen::cover, life.cover(), *seen.cover,
               weigh(life.pools().on_top(), field.straw_spread, bare / cover_per_kg,
                     cover_spread / ((1.0 - c) * bare)));
  }
  if (seen.straw_kg_per_ha && *seen.straw_kg_per_ha > 0.0)
    go_on_with(Seen::straw_on_top, life.pools().on_top(), *seen.straw_kg_per_ha,
               weigh(life.pools().on_top(), field.straw_spread, *seen.straw_kg_per_ha, weighed_spread));
  return out;
}

std::vector<Difference> put_water_right(FieldState& field, season::FieldYear& life,
                                        const farm::FieldSeen& seen, int slow_days, int day) {
  std::vector<Difference> out;
  const soil::GroundOf<double>& g = life.ground();
  soil::WaterState water = life.water();
  if (seen.standing_mm) {
    const double model = water.ponded_mm;
    water.ponded_mm = *seen.standing_mm;
    if (*seen.standing_mm > 0.0) {
      water.seedbed_mm = g.seedbed_full;
      water.below_mm = g.below_full;
      field.seedbed_spread_mm = 0.0;
    }
    life.find_water(water, *seen.standing_mm > 0.0 ? 0.0 : life.life().dry_days);
    out.push_back({seen.field, day, Seen::standing_water, model, *seen.standing_mm, *seen.standing_mm});
  }
  if (!seen.workable) return out;
  const bool model = life.mask().workable;
  out.push_back({seen.field, day, Seen::workable, model ? 1.0 : 0.0, *seen.workable ? 1.0 : 0.0,
                 *seen.workable ? 1.0 : 0.0});
  if (model == *seen.workable) return out;
  const double limit = workable_below(g), spread = std::max(field.seedbed_spread_mm, least_seedbed_spread_mm);
  const bool was_below = water.seedbed_mm < limit;
  if (*seen.workable) water.ponded_mm = 0.0;
  if (was_below != *seen.workable) {
    const Cut cut = *seen.workable ? known_below(water.seedbed_mm, spread, limit)
                                   : known_above(water.seedbed_mm, spread, limit);
    water.seedbed_mm = std::clamp(cut.mean, 0.0, g.seedbed_full);
    field.seedbed_spread_mm = cut.spread;
  }
  life.find_water(water, *seen.workable ? slow_days + 1.0 : 0.0);
  return out;
}

}  // namespace aftercut::journal
