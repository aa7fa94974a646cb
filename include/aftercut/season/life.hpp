#pragma once
// What changes with the days in a field, for one field (N = double) or for several side by side (N = Lanes):
// numbers only, all of the same type, so that the lives of several fields can be laid lane by lane.

#include "aftercut/soil/daily_water.hpp"
#include "aftercut/straw/daily_decay.hpp"
#include "aftercut/straw/nitrogen.hpp"

namespace aftercut::season {

/// What happened to the straw of one field in one year, each summed where it happened [kg/ha]. `found`: by
/// how much more was counted on the field than had been thought.
template <class N>
struct StrawLedgerOf {
  N in = 0.0, found = 0.0, baled = 0.0, burned = 0.0, decayed = 0.0;
};
using StrawLedger = StrawLedgerOf<double>;

/// The same of its nitrogen [kg/ha]: in the straw at harvest, taken up from the soil by what rots it and
/// given back, gone with bales, gone from the straw by fire; in straw that was found to be there.
template <class N>
struct NitrogenLedgerOf {
  N in = 0.0, found = 0.0, from_soil = 0.0, to_soil = 0.0, baled = 0.0, burned = 0.0;
};
using NitrogenLedger = NitrogenLedgerOf<double>;

/// Summed fluxes of the water balance since the season's first day [mm]. `found`: by how much more was seen
/// on and in the ground than had been thought.
template <class N>
struct WaterLedgerOf {
  N start_store = 0.0, found = 0.0;
  soil::WaterFluxesOf<N> sum;
};
using WaterLedger = WaterLedgerOf<double>;

template <class N>
struct LifeOf {
  soil::WaterStateOf<N> water;
  straw::PoolsOf<N> pools;
  straw::NitrogenStateOf<N> nitrogen;
  N cover = 0.0;                        ///< share of the soil under straw on top
  N loose_db = 0.0, standing_db = 0.0;  ///< moisture of lying and of standing straw [% d.b.]
  N keep_loose = 0.0;                   ///< straw::keep_of its lay
  N running_mean_c = 0.0;               ///< of the air
  N board_mm = 0.0;                     ///< 0: boards out
  N opened = 0.0, rutted_share = 0.0;
  N drying_mm = 0.0;  ///< evaporated since the last tillage pass or since drawdown
  N dry_days = 0.0;   ///< ends of day in a row on which the ground could be worked
  StrawLedgerOf<N> straw;
  NitrogenLedgerOf<N> nitrogen_sum;
  WaterLedgerOf<N> water_sum;
};
using Life = LifeOf<double>;

/// Straw and its nitrogen from independent sums: what came in against what went and what is left. Throws
/// InternalError when either is off by more than 1e-9 of what came in.
template <class N>
[[gnu::always_inline]] inline void require_balanced(const LifeOf<N>& life, double nitrogen_content) {
  const StrawLedgerOf<N>& s = life.straw;
  const N total = life.pools.total();
  const N straw_off = (s.in + s.found) - (s.baled + s.burned + s.decayed + total);
  const NitrogenLedgerOf<N>& n = life.nitrogen_sum;
  const N nitrogen_in = n.in + n.found + n.from_soil;
  const N nitrogen_off =
      nitrogen_in - (n.to_soil + n.baled + n.burned + life.nitrogen.in_straw + life.nitrogen.in_microbes);
  const N content_off = life.nitrogen.in_straw - nitrogen_content * total;
  const N most_nitrogen_off = greater(magnitude(nitrogen_off), magnitude(content_off));
  require(holds(magnitude(straw_off) <= soil::balance_tolerance * s.in &&
                most_nitrogen_off <= soil::balance_tolerance * nitrogen_in),
          "the straw and the nitrogen of a field balance");
}

}  // namespace aftercut::season
