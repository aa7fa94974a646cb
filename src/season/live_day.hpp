#pragma once
// The one place where the physics of a day meet: temperature, water, straw moisture, decay and nitrogen of
// one field (N = double) or of several side by side (N = Lanes).

#include "aftercut/season/field_year.hpp"
#include "aftercut/soil/temperature.hpp"

namespace aftercut::season {

/// What a day brings.
template <class N>
struct SkyOf {
  N rain_mm, et0_mm, air_c, equilibrium_db, straw_wetting_mm, air_factor;
};

/// What a field is, all season.
template <class N>
struct FieldOf {
  soil::GroundOf<N> ground;
  N rut_depth_mm = 0.0;
};

/// `drained`: the summer water is off, so that the field's water is on the move.
template <class N>
[[gnu::always_inline]] inline void live_water(LifeOf<N>& life, const FieldOf<N>& field, const SkyOf<N>& sky,
                                              const N& water_in_mm, const Mask<N>& drained) {
  const auto step = soil::live_water<N>(field.ground, life.water,
                                        {.rain_mm = sky.rain_mm,
                                         .et0_mm = sky.et0_mm,
                                         .water_in_mm = water_in_mm,
                                         .cover = life.cover,
                                         .board_height_mm = life.board_mm,
                                         .opened = life.opened,
                                         .rutted_share = life.rutted_share,
                                         .rut_depth_mm = field.rut_depth_mm},
                                        {});
  const N none = 0.0;
  const auto take = [&](N& number, const N& next) { number = pick(drained, next, number); };
  const auto add = [&](N& sum, const N& flux) { sum += pick(drained, flux, none); };
  take(life.water.seedbed_mm, step.state.seedbed_mm);
  take(life.water.below_mm, step.state.below_mm);
  take(life.water.ponded_mm, step.state.ponded_mm);
  auto& sum = life.water_sum.sum;
  add(sum.rain_mm, step.fluxes.rain_mm);
  add(sum.water_in_mm, step.fluxes.water_in_mm);
  add(sum.evaporation_mm, step.fluxes.evaporation_mm);
  add(sum.percolation_mm, step.fluxes.percolation_mm);
  add(sum.spill_mm, step.fluxes.spill_mm);
  add(life.drying_mm, step.fluxes.evaporation_mm);
  life.drying_mm = pick(life.water.ponded_mm > pond_stops_drying_mm, none, life.drying_mm);
  life.opened = pick(life.water.ponded_mm > flooded_above_mm, none, life.opened);
}

template <class N>
[[gnu::always_inline]] inline void live_straw(LifeOf<N>& life, const FieldOf<N>& field, const Rates& rates,
                                              const SkyOf<N>& sky, const N& soil_factor) {
  life.loose_db = straw::next_moisture(life.loose_db, sky.equilibrium_db, sky.straw_wetting_mm,
                                       life.keep_loose, rates.drying);
  life.standing_db = straw::next_moisture(life.standing_db, sky.equilibrium_db, sky.straw_wetting_mm,
                                          N{rates.drying.keep_standing}, rates.drying);
  const auto rot = straw::decay<N>(life.pools,
                                   {.soil_factor = soil_factor,
                                    .air_factor = sky.air_factor,
                                    .standing_wetness = straw::surface_wetness(life.standing_db),
                                    .surface_wetness = straw::surface_wetness(life.loose_db),
                                    .soil_wetness = soil::decay_wetness(field.ground, life.water),
                                    .pores_full = soil::pores_full(field.ground, life.water),
                                    .flooded = life.water.ponded_mm > flooded_above_mm},
                                   rates.decay);
  life.pools = rot.pools;
  life.straw.decayed += rot.decayed_kg_per_ha;
  const auto bound = straw::live_nitrogen(life.nitrogen, rot.decayed_kg_per_ha, soil_factor, rates.nitrogen);
  life.nitrogen = bound.state;
  life.nitrogen_sum.from_soil += bound.from_soil;
  life.nitrogen_sum.to_soil += bound.to_soil;
  life.cover = straw::cover(life.pools);
}

/// One day. Throws InternalError when a balance does not close.
template <class N>
[[gnu::always_inline]] inline void live_day(LifeOf<N>& life, const FieldOf<N>& field, const Rates& rates,
                                            const SkyOf<N>& sky, const N& water_in_mm,
                                            const Mask<N>& drained) {
  const Mask<N> flooded = life.water.ponded_mm > flooded_above_mm;
  life.running_mean_c = soil::next_running_mean(life.running_mean_c, sky.air_c, flooded, {});
  const N soil_c = soil::soil_temperature(life.running_mean_c, life.cover, flooded, {});
  live_water(life, field, sky, water_in_mm, drained);
  life.dry_days = pick(soil::workable(field.ground, life.water), N{life.dry_days + 1.0}, N{0.0});
  live_straw(life, field, rates, sky, straw::temperature_factor(rates.decay, soil_c));
  require_balanced(life, rates.nitrogen.content_kg_per_kg);
}

}  // namespace aftercut::season
