#include "winter.hpp"

#include "aftercut/farm/wishes.hpp"
#include "aftercut/plan/decision.hpp"

namespace aftercut::dispatch {

WinterWatch::WinterWatch(const farm::Farm& farm, const farm::Field& field, bool open)
    : soil_{&farm.soils.at(field.soil)},
      last_{farm::seedbed_due(field) ? farm.season.day(field.next.planting) : farm.season.days - 1},
      open_{open} {}

void WinterWatch::morning(const season::FieldYear& sim) {
  if (!open_ || sim.day() > last_) return;
  if (seen_.empty()) next_ = sim.day();
  if (sim.day() != next_) return;
  next_ += plan::days_between_winter_mornings;
  seen_.push_back({.day = sim.day(),
                   .straw_kg_per_ha = sim.pools().total(),
                   .pores_full = soil::pores_full(*soil_, sim.water()),
                   .under_water = sim.water().ponded_mm > season::flooded_above_mm});
}

void WinterWatch::evening(const season::FieldYear& sim, int ready_day) {
  if (!open_ || ready_day == plan::none) return;
  season::FieldYear on = sim;
  for (; on.day() <= last_; on.end_day(0.0)) morning(on);
  open_ = false;
}

}  // namespace aftercut::dispatch
