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

bool is_share(double x) { return x >= 0.0 && x <= 1.0; }

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
               .oxygen_wet_percent = s.oxygen_wet_percent,
               .oxygen_flooded = oxygen_factor(s.oxygen_flooded_percent)};
  r.if_flooded = {s.waterfowl_loose, s.waterfowl_loose, s.waterfowl_pressed, 1.0};
  return r;
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

double degree_day_remaining(double n_g_per_kg, double water_factor, double degree_days) {
  return std::exp(-0.0004 * (0.57 + 0.126 * n_g_per_kg) * water_factor * degree_days);
}

}  // namespace aftercut::straw
