#include "next_crop.hpp"

#include <algorithm>

#include "aftercut/plan/decision.hpp"

namespace aftercut::dispatch {
namespace {

constexpr double flooded_above_mm = 10.0;  // less is puddles. Source: PaddyDepth (assumed)

}  // namespace

void NextCropWatch::morning(const season::FieldYear& sim) {
  if (!open_) return;
  const double mm = sim.water().ponded_mm;
  flood_days_in_a_row_ = mm > flooded_above_mm ? flood_days_in_a_row_ + 1 : 0;
  if (flood_days_in_a_row_ > 0) ++seen_.flooded_days;
  if (flood_days_in_a_row_ > burn::preseason_days) seen_.long_flood_end = sim.day();
  if (mm >= straw::shallowest_for_birds_mm && mm <= straw::deepest_for_birds_mm) ++seen_.bird_days;
}

void NextCropWatch::spring_begins(const season::FieldYear& sim) {
  if (spring_begun_ || !open_) return;
  spring_begun_ = true;
  seen_.spring_day = sim.day();
  seen_.spring_on_top_kg_per_ha = sim.pools().on_top();
  seen_.spring_in_ground_kg_per_ha = sim.pools().at(straw::Place::mixed);
}

season::FieldYear NextCropWatch::apply(season::FieldYear sim, const method::Operation& op, double share,
                                       const straw::Tool& with) {
  const double in_ground = sim.pools().at(straw::Place::mixed);
  if (open_ && op.burning) {
    seen_.burned_in_rows = sim.lay() == straw::Lay::windrow;
    seen_.burned_moisture_percent = sim.mask().straw_moisture_percent;
  }
  sim.apply(op, share, with);
  if (!open_) return sim;
  const double more = sim.pools().at(straw::Place::mixed) - in_ground;
  if (more > 0.0) applied_.push_back({sim.day(), more});
  if (sim.day() > farm_->season.day(farm_->environment.late_autumn)) return sim;
  const method::Effect& e = op.effect;
  handling_.burned = handling_.burned || e.burn_share_flat > 0.0;
  handling_.chopped = handling_.chopped || e.lay_after == straw::Lay::chopped;
  handling_.rolled = handling_.rolled || e.straw.press > 0.0;
  handling_.disked = handling_.disked || (op.tillage && e.straw.bury > 0.0);
  return sim;
}

int NextCropWatch::crop_starts(int ready_day) const {
  if (field_->next.kind == farm::NextUseKind::fallow) return farm_->season.days;
  if (ready_day == plan::none) return farm_->season.day(field_->next.cut_off) + 1;
  return std::max(farm_->season.day(field_->next.planting), ready_day + 1);
}

void NextCropWatch::evening(const season::FieldYear& sim, int ready_day) {
  if (!open_) return;
  const int starts = std::min(crop_starts(ready_day), farm_->season.days);
  if (sim.day() >= starts) return close(sim);
  if (ready_day == plan::none) return;
  season::FieldYear on = sim;
  for (; on.day() < starts; on.end_day(0.0)) morning(on);
  close(on);
}

void NextCropWatch::close(const season::FieldYear& sim) {
  spring_begins(sim);
  open_ = false;
  for (const Applied& a : applied_)
    (sim.day() - a.day > burn::preseason_days ? seen_.applied_early_kg_per_ha
                                              : seen_.applied_late_kg_per_ha) += a.kg_per_ha;
  const season::NitrogenLedger& n = sim.life().nitrogen_sum;
  seen_.n_taken_up_kg_per_ha = n.from_soil;
  seen_.n_given_back_kg_per_ha = n.to_soil;
  seen_.n_held_kg_per_ha = sim.life().nitrogen.in_microbes;
  const int days = farm_->season.day(farm_->environment.late_autumn) - farm_->season.day(field_->harvest);
  seen_.waste_grain_kg_per_ha = straw::waste_grain_left(farm_->environment.waste_grain, days, handling_);
}

}  // namespace aftercut::dispatch
