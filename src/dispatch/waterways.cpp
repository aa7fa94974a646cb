#include "aftercut/dispatch/waterways.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/numbers.hpp"

namespace aftercut::dispatch {
namespace {

/// Who looks after the boards: the paid person of the lowest wage, else the unpaid one.
const farm::Operator* irrigator_of(const farm::Farm& farm) {
  const auto cheaper = [](const farm::Operator& a, const farm::Operator& b) {
    return a.paid != b.paid ? a.paid : a.wage_per_h < b.wage_per_h;
  };
  const auto at = std::min_element(farm.operators.begin(), farm.operators.end(), cheaper);
  return at == farm.operators.end() ? nullptr : &*at;
}

}  // namespace

bool water_reaches(const Table& t, std::size_t field, const MorningWater& m) {
  return std::ranges::all_of(t.fills_from[field],
                             [&](std::size_t o) { return m.pond_mm[o] >= standing_water_mm; });
}

bool drain_is_free(const Table& t, std::size_t field, const MorningWater& m) {
  return std::ranges::all_of(t.drains_to[field], [&](std::size_t o) { return m.boards_in[o] == 0; });
}

bool may_draw_down(const Table& t, std::size_t field, const MorningWater& m, double drained_today_ha,
                   double area_ha) {
  if (!drain_is_free(t, field, m)) return false;
  const auto& supply = t.problem->farm.supply;
  const auto& most = supply ? supply->drawdown_ha_per_day : std::nullopt;
  return !most || drained_today_ha <= 0.0 || drained_today_ha + area_ha <= *most;
}

bool watered_before(const Table& t, std::size_t field) { return t.so_far && t.so_far->fields[field].watered; }

int leased_before(const Table& t, std::size_t field) {
  const auto& lease = t.problem->farm.fields[field].lease;
  return t.so_far && lease && lease->until >= t.problem->as_of ? t.so_far->fields[field].lease_days : 0;
}

double flow_of(const Table& t, int day) {
  const auto d = static_cast<std::size_t>(day);
  if (!t.water_on[d]) return 0.0;
  return t.problem->farm.supply->most_flow.value() * (t.flow_times.empty() ? 1.0 : t.flow_times[d]);
}

double seepage_mm(const Table& t, std::size_t field, const MorningWater& m) {
  const auto& supply = t.problem->farm.supply;
  const bool wet = std::ranges::any_of(t.seeps_from[field],
                                       [&](std::size_t o) { return m.pond_mm[o] >= standing_water_mm; });
  return supply && wet ? supply->seepage_mm_per_day : 0.0;
}

Round storm_round(const farm::Farm& farm, std::size_t field, double rain_mm) {
  Round r;
  const farm::Operator* who = irrigator_of(farm);
  if (!farm.supply || rain_mm <= farm.supply->storm_rain_mm || who == nullptr) return r;
  r.minutes = static_cast<int>(
      std::ceil(farm.supply->labour_min_per_ha_storm * farm.fields[field].area.value() - 1e-9));
  (who->paid ? r.cost.wages : r.cost.own_labour) = to_cents(who->wage_per_h.value() * r.minutes / 60.0);
  return r;
}

}  // namespace aftercut::dispatch
