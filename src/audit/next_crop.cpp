#include "next_crop.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace aftercut::audit {
namespace {

constexpr double puddles_mm = 10.0;                             // Source: PaddyDepth (assumed)
constexpr int month_before = 30;                                // days
constexpr double bird_shallow_mm = 50.0, bird_deep_mm = 300.0;  // Source: WaterfowlDepth (assumed)
constexpr double left_by_fire = 276.0 / 388.0;                  // Source: Miller1989 (read)
constexpr double left_chopped = 67.0 / 105.0, left_rolled = 51.0 / 105.0,
                 left_disked = 48.0 / 105.0;  // Source: Kross2006 (read)
constexpr double crop_tolerance = 1e-3;

const farm::Field& field_at(const Facts& facts, int field) {
  return facts.farm().fields[static_cast<std::size_t>(field)];
}

int late_autumn(const Facts& facts) { return facts.farm().season.day(facts.farm().environment.late_autumn); }

double grain_left(const Facts& facts, int field, const Seen& s) {
  const straw::WasteGrain& grain = facts.farm().environment.waste_grain;
  const int days = late_autumn(facts) - facts.farm().season.day(field_at(facts, field).harvest);
  double kg = grain.at_harvest_kg_per_ha;
  if (days > 0) kg *= std::exp(-grain.loss_per_day * days);
  if (s.fire) kg *= left_by_fire;
  if (s.disked) return kg * left_disked;
  if (s.rolled) return kg * left_rolled;
  return s.chopped ? kg * left_chopped : kg;
}

}  // namespace

Seen see_morning(Seen s, const season::FieldYear& life) {
  if (s.over) return s;
  const double mm = life.water().ponded_mm;
  s.flood_so_far = mm > puddles_mm ? s.flood_so_far + 1 : 0;
  if (mm > puddles_mm) ++s.found.flooded_days;
  if (s.flood_so_far > month_before) s.found.long_flood_end = life.day();
  if (bird_shallow_mm <= mm && mm <= bird_deep_mm) ++s.found.bird_days;
  return s;
}

Seen see_spring(Seen s, const season::FieldYear& life) {
  if (s.over || s.spring) return s;
  s.spring = true;
  s.found.spring_day = life.day();
  s.found.spring_in_ground_kg_per_ha = life.pools().at(straw::Place::mixed);
  s.found.spring_on_top_kg_per_ha = life.pools().at(straw::Place::standing) +
                                    life.pools().at(straw::Place::flat) +
                                    life.pools().at(straw::Place::pressed);
  return s;
}

Seen see_change(const Facts& facts, Seen s, const method::Operation& op, const season::FieldYear& before,
                const season::FieldYear& after) {
  if (s.over) return s;
  const double more = after.pools().at(straw::Place::mixed) - before.pools().at(straw::Place::mixed);
  if (more > 0.0) s.worked_in.emplace_back(before.day(), more);
  if (op.burning) {
    s.found.burned_in_rows = before.lay() == straw::Lay::windrow;
    s.found.burned_moisture_percent = before.mask().straw_moisture_percent;
  }
  if (before.day() <= late_autumn(facts)) {
    if (op.effect.burn_share_flat > 0.0) s.fire = true;
    if (op.effect.lay_after && *op.effect.lay_after == straw::Lay::chopped) s.chopped = true;
    if (op.effect.straw.press > 0.0) s.rolled = true;
    if (op.tillage && op.effect.straw.bury > 0.0) s.disked = true;
  }
  return s;
}

Seen see_evening(const Facts& facts, int field, Seen s, const season::FieldYear& life, int ready_day) {
  const farm::Calendar& season = facts.farm().season;
  const farm::NextUse& next = field_at(facts, field).next;
  int starts = season.days;
  if (next.kind != farm::NextUseKind::fallow)
    starts = ready_day == plan::none ? season.day(next.cut_off) + 1
                                     : std::max(season.day(next.planting), ready_day + 1);
  if (s.over || (life.day() < starts && life.day() < season.days)) return s;
  s = see_spring(std::move(s), life);
  s.over = true;
  for (const auto& [day, kg] : s.worked_in)
    (life.day() - day > month_before ? s.found.applied_early_kg_per_ha : s.found.applied_late_kg_per_ha) +=
        kg;
  s.found.n_taken_up_kg_per_ha = life.life().nitrogen_sum.from_soil;
  s.found.n_given_back_kg_per_ha = life.life().nitrogen_sum.to_soil;
  s.found.n_held_kg_per_ha = life.life().nitrogen.in_microbes;
  s.found.waste_grain_kg_per_ha = grain_left(facts, field, s);
  return s;
}

Seen see_to_the_end(const Facts& facts, int field, Seen s, season::FieldYear life, int ready_day) {
  while (!s.over) {
    s = see_morning(std::move(s), life);
    life.end_day(0.0);
    s = see_evening(facts, field, std::move(s), life, ready_day);
  }
  return s;
}

double untouched_on_top(const Facts& facts, int field, const season::YearDrivers& drivers, int day) {
  season::FieldYear life{facts.farm(), static_cast<std::size_t>(field), drivers, method::HarvestSetting{}};
  while (life.day() < day) life.end_day(0.0);
  return life.pools().on_top();
}

Findings compare_next_crop(const Place& place, const plan::NextCrop& found, const plan::NextCrop& expected) {
  Findings f;
  const auto near = [&](double plan::NextCrop::*member, const char* name) {
    Place where = place;
    where.what = name;
    f.expect_near(found.*member, expected.*member, crop_tolerance, "wrong figure of the next crop", where);
  };
  const auto same = [&](auto plan::NextCrop::*member, const char* name) {
    Place where = place;
    where.what = name;
    f.expect(found.*member == expected.*member, "wrong figure of the next crop", where, [&] {
      return Texts{fmt::format("{}", found.*member), fmt::format("{}", expected.*member)};
    });
  };
  using N = plan::NextCrop;
  same(&N::burned_in_rows, "burned in rows");
  near(&N::burned_moisture_percent, "moisture at burning");
  near(&N::applied_early_kg_per_ha, "straw worked in early");
  near(&N::applied_late_kg_per_ha, "straw worked in late");
  near(&N::n_taken_up_kg_per_ha, "nitrogen taken up");
  near(&N::n_given_back_kg_per_ha, "nitrogen given back");
  near(&N::n_held_kg_per_ha, "nitrogen held");
  same(&N::spring_day, "first spring tillage");
  near(&N::spring_on_top_kg_per_ha, "straw on top in spring");
  near(&N::spring_in_ground_kg_per_ha, "straw in the ground in spring");
  same(&N::flooded_days, "flooded days");
  same(&N::bird_days, "days for waterfowl");
  same(&N::long_flood_end, "end of the long flood");
  near(&N::waste_grain_kg_per_ha, "waste grain");
  return f;
}

}  // namespace aftercut::audit
