#include "aftercut/straw/pools.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"

namespace aftercut::straw {
namespace {

constexpr std::size_t standing = static_cast<std::size_t>(Place::standing);
constexpr std::size_t flat = static_cast<std::size_t>(Place::flat);
constexpr std::size_t pressed = static_cast<std::size_t>(Place::pressed);
constexpr std::size_t mixed = static_cast<std::size_t>(Place::mixed);

constexpr double base_temperature_c = 25.0;
constexpr double air_short_from = 0.80, air_short_to = 0.90;  // pores full. Source: OxygenWet (assumed)

bool is_share(double x) { return x >= 0.0 && x <= 1.0; }

/// Oxygen factor of straw in the ground.
double oxygen_in_ground(const DecayDay& day, const DecayRates& r) {
  if (day.flooded) return r.oxygen_flooded;
  const double short_of_air =
      std::clamp((day.pores_full - air_short_from) / (air_short_to - air_short_from), 0.0, 1.0);
  return 1.0 + short_of_air * (r.oxygen_wet - 1.0);
}

/// Exponents of some days by place for the slow part; they depend on the day and the place, never on the mass
/// left.
std::array<double, places> slow_exponents(const DecayDay& day, const DecayRates& r, double days) {
  const double ground = day.soil_factor * oxygen_in_ground(day, r) * (day.flooded ? 1.0 : day.soil_wetness);
  const double on_top = day.soil_factor * (day.flooded ? r.oxygen_flooded : day.surface_wetness);
  std::array<double, places> x{day.air_factor * day.surface_wetness, on_top, ground, ground};
  for (std::size_t p = 0; p < places; ++p) x[p] *= days * r.slow[p] * (day.flooded ? r.if_flooded[p] : 1.0);
  return x;
}

constexpr std::size_t parts = 2 * places;  // slow by place, then fast by place
using ByPart = std::array<double, parts>;

/// 1 - exp(-x), all parts side by side. Up to x = 0.02 and 0.1, most days and every ordinary day, as nested
/// series exact to 2e-14 and 3e-15 of the value.
ByPart lost_shares(const ByPart& x) {
  ByPart lost{};
  const double most = *std::max_element(x.begin(), x.end());
  if (most > 0.1) {
    std::transform(x.begin(), x.end(), lost.begin(), [](double e) { return -std::expm1(-e); });
    return lost;
  }
  const bool long_series = most > 0.02;
  for (std::size_t p = 0; p < parts; ++p) {
    const double e = x[p];
    const double far = long_series ? 1.0 - e * (1.0 / 7) * (1.0 - e * 0.125 * (1.0 - e * (1.0 / 9))) : 1.0;
    lost[p] =
        e *
        (1.0 -
         e * 0.5 * (1.0 - e * (1.0 / 3) * (1.0 - e * 0.25 * (1.0 - e * 0.2 * (1.0 - e * (1.0 / 6) * far)))));
  }
  return lost;
}

std::array<double, places> scaled(std::array<double, places> x, double factor) {
  for (double& value : x) value *= factor;
  return x;
}

using Masses = std::array<double, places>;

Masses moved(Masses m, const Transfer& t) {
  const double flattened = t.flatten * m[standing];
  m[standing] -= flattened;
  m[flat] += flattened;
  const double pressed_in = t.press * m[flat];
  m[flat] -= pressed_in;
  m[pressed] += pressed_in;
  const double flat_buried = t.bury * m[flat], pressed_buried = t.bury * m[pressed];
  m[flat] -= flat_buried;
  m[pressed] -= pressed_buried;
  m[mixed] += flat_buried + pressed_buried;
  const double resurfaced = t.resurface * m[mixed];
  m[mixed] -= resurfaced;
  m[flat] += resurfaced;
  return m;
}

}  // namespace

double Pools::total() const {
  double sum = 0.0;
  for (std::size_t p = 0; p < places; ++p) sum += fast[p] + slow[p];
  return sum;
}

Pools fresh(double load_kg_per_ha, double standing_share, const DecaySettings& s) {
  require(load_kg_per_ha >= 0.0 && is_share(standing_share) && is_share(s.fast_share),
          "a load is not negative, shares lie in 0 to 1");
  const double stands = load_kg_per_ha * standing_share;
  const double lies = load_kg_per_ha - stands;
  Pools pools;
  pools.fast[standing] = s.fast_share * stands;
  pools.slow[standing] = stands - pools.fast[standing];
  pools.fast[flat] = s.fast_share * lies;
  pools.slow[flat] = lies - pools.fast[flat];
  return pools;
}

double nitrogen_factor(double nitrogen_g_per_kg) {
  constexpr double base = 0.57, per_g = 0.126, usual = 5.9;
  return (base + per_g * nitrogen_g_per_kg) / (base + per_g * usual);
}

DecayRates rates_of(const DecaySettings& s) {
  DecayRates r{.slow = scaled(s.contact, s.slow_rate_25c_per_day * nitrogen_factor(s.nitrogen_g_per_kg)),
               .fast_to_slow = s.fast_to_slow_rate,
               .per_degree = std::log(s.q10) / 10.0,
               .oxygen_wet = s.oxygen_wet,
               .oxygen_flooded = s.oxygen_flooded};
  r.if_flooded = {s.waterfowl_loose, s.waterfowl_loose, s.waterfowl_pressed, 1.0};
  return r;
}

double temperature_factor(const DecayRates& rates, double celsius) {
  return std::exp(rates.per_degree * (celsius - base_temperature_c));
}

DecayStep decay(const Pools& pools, const DecayDay& day, const DecayRates& rates, double days) {
  const auto slow = slow_exponents(day, rates, days);
  ByPart exponents{};
  for (std::size_t p = 0; p < places; ++p) {
    exponents[p] = slow[p];
    exponents[places + p] = rates.fast_to_slow * slow[p];
  }
  const ByPart share = lost_shares(exponents);
  DecayStep step{.pools = pools};
  for (std::size_t p = 0; p < places; ++p) {
    const double slow_lost = pools.slow[p] * share[p];
    const double fast_lost = pools.fast[p] * share[places + p];
    step.pools.slow[p] -= slow_lost;
    step.pools.fast[p] -= fast_lost;
    step.decayed_kg_per_ha += fast_lost + slow_lost;
  }
  return step;
}

Pools move(const Pools& pools, const Transfer& t) {
  require(is_share(t.flatten) && is_share(t.press) && is_share(t.bury) && is_share(t.resurface),
          "transfers are shares from 0 to 1");
  return {.fast = moved(pools.fast, t), .slow = moved(pools.slow, t)};
}

Removal remove(const Pools& pools, double share_of_flat, double share_of_standing) {
  require(is_share(share_of_flat) && is_share(share_of_standing), "what is taken is a share from 0 to 1");
  Removal r{.pools = pools};
  const auto take = [&r](double mass, double share) {
    r.removed_kg_per_ha += share * mass;
    return mass - share * mass;
  };
  r.pools.fast[flat] = take(pools.fast[flat], share_of_flat);
  r.pools.slow[flat] = take(pools.slow[flat], share_of_flat);
  r.pools.fast[standing] = take(pools.fast[standing], share_of_standing);
  r.pools.slow[standing] = take(pools.slow[standing], share_of_standing);
  return r;
}

double cover(const Pools& pools, double k_ha_per_kg) { return 1.0 - std::exp(-k_ha_per_kg * pools.on_top()); }

NutrientMass nutrients_in(double straw_kg_per_ha, const Nutrients& nutrients) {
  return {.n_kg_per_ha = straw_kg_per_ha * nutrients.n,
          .p_kg_per_ha = straw_kg_per_ha * nutrients.p,
          .k_kg_per_ha = straw_kg_per_ha * nutrients.k};
}

double handbook_temperature_factor(double t_c, double optimum_c, double shift_c) {
  if (t_c <= -shift_c) return 0.0;
  const double root = (t_c + shift_c) / (optimum_c + shift_c);
  const double x = root * root;
  return std::max(0.0, 2.0 * x - x * x);
}

double oxygen_factor(double oxygen_percent) {
  static constexpr std::array<Node, 4> nodes{{{0.0, 0.13}, {2.5, 0.70}, {5.0, 0.86}, {21.0, 1.00}}};
  return interpolate(nodes, oxygen_percent);
}

double degree_day_remaining(double n_g_per_kg, double water_factor, double degree_days) {
  return std::exp(-0.0004 * (0.57 + 0.126 * n_g_per_kg) * water_factor * degree_days);
}

}  // namespace aftercut::straw
