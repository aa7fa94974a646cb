#include "leased_water.hpp"

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/money.hpp"
#include "aftercut/dispatch/waterways.hpp"

namespace aftercut::planner {
namespace {

constexpr double surely_needed = 0.95;  // of what the field takes when it is watered as late as can be

/// Canal water that is let in only on the evening before a morning of the lease that would else see none
/// standing: earlier water seeps away as well.
double least_mm(season::FieldYear sim, int from, int until) {
  double mm = 0.0;
  while (sim.day() < until) {
    const int next = sim.day() + 1;
    double let_in = 0.0;
    if (next >= from) {
      season::FieldYear dry = sim;
      dry.end_day(0.0);
      let_in = std::max(0.0, dispatch::standing_water_mm - dry.water().ponded_mm);
    }
    mm += let_in;
    sim.end_day(let_in);
  }
  return mm;
}

}  // namespace

double most_lease_cents(const dispatch::Table& t, std::size_t f, const method::Recipe& recipe,
                        const std::vector<History>& boards_in) {
  const farm::Farm& farm = t.problem->farm;
  const farm::Field& field = farm.fields[f];
  if (!field.lease || !recipe.water) return 0.0;
  const double lease = 100.0 * field.lease->per_ha.value() * field.area.value();
  if (!t.seeps_from[f].empty()) return lease;  // water may come through the levees for nothing
  double most = boards_in.empty() ? lease : 0.0;
  for (const History& h : boards_in) {
    const double mm = surely_needed * least_mm(h.sim, farm.season.day(field.lease->from),
                                               farm.season.day(field.lease->until));
    if (mm > 0.0 && !recipe.water->from_canal) continue;
    const double m3 = mm * field.area.value() * m3_per_mm_ha;
    const double water =
        mm > 0.0 ? static_cast<double>(
                       dispatch::water_cost(t, m3, !dispatch::watered_before(t, f), field.area.value())
                           .out_of_pocket())
                 : 0.0;
    most = std::max(most, lease - water);
  }
  return most;
}

}  // namespace aftercut::planner
