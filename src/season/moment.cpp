// A field's life laid down on a morning and taken up again, and what eyes on the field put right in it.

#include "aftercut/core/require.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::season {

Moment FieldYear::moment() const { return {day_, life_, lay_, straw_length_mm_, rut_depth_mm_}; }

void FieldYear::go_on_from(const Moment& m) {
  day_ = m.day;
  life_ = m.life;
  rut_depth_mm_ = m.rut_depth_mm;
  const bool cut = day_ > harvest_day_;
  lay_ = cut ? m.lay : setting_.lay;
  straw_length_mm_ = cut ? m.straw_length_mm : 0.0;
  life_.keep_loose = straw::keep_of(lay_, drivers_->rates.drying);
}

void FieldYear::find_straw(double times) {
  require(times > 0.0, "straw is found to be more than none");
  const double before = life_.pools.total();
  for (const straw::Place p : {straw::Place::standing, straw::Place::flat, straw::Place::pressed}) {
    life_.pools.fast[static_cast<std::size_t>(p)] *= times;
    life_.pools.slow[static_cast<std::size_t>(p)] *= times;
  }
  const double more = life_.pools.total() - before;
  const double nitrogen = drivers_->rates.nitrogen.content_kg_per_kg * more;
  life_.straw.found += more;
  life_.nitrogen.in_straw += nitrogen;
  life_.nitrogen_sum.found += nitrogen;
  life_.cover = straw::cover(life_.pools);
}

void FieldYear::find_water(const soil::WaterState& water, double dry_days) {
  require(water.seedbed_mm >= 0.0 && water.seedbed_mm <= ground_.seedbed_full && water.below_mm >= 0.0 &&
              water.below_mm <= ground_.below_full && water.ponded_mm >= 0.0 && dry_days >= 0.0,
          "the ground holds the water that is found in it");
  life_.water_sum.found += (water.seedbed_mm - life_.water.seedbed_mm) +
                           (water.below_mm - life_.water.below_mm) +
                           (water.ponded_mm - life_.water.ponded_mm);
  life_.water = water;
  life_.dry_days = dry_days;
}

}  // namespace aftercut::season
