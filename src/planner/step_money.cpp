#include "step_money.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/money.hpp"
#include "aftercut/dispatch/waterways.hpp"

namespace aftercut::planner {
namespace {

double cents_of(const plan::CostParts& c) { return static_cast<double>(c.out_of_pocket()); }

}  // namespace

double baling_cents(const StepAsked& a, const season::FieldYear& sim) {
  const method::Operation& op = operation_of(a);
  season::FieldYear after = sim;
  after.apply(op);
  const double area = field_of(a).area.value();
  const double kg = (after.straw_ledger().baled - sim.straw_ledger().baled) * area;
  double least = std::numeric_limits<double>::max();
  for (const auto& o : a.table->outfits[a.field][static_cast<std::size_t>(a.step->operation)])
    least = std::min(least, cents_of(dispatch::baled_cost(*a.table, o.implement, kg, area)));
  return least;
}

double rounds_cents(const StepAsked& a, int day) {
  const int out = dispatch::drawdown_day(*a.table, field_of(a), *a.recipe);
  double cents = 0.0;
  for (int d = day + 1; d < std::min(out, a.table->problem->farm.season.days); ++d)
    cents += cents_of(dispatch::storm_round(a.table->problem->farm, a.field,
                                            a.table->drivers[a.year].rain_mm[static_cast<std::size_t>(d)])
                          .cost);
  return cents;
}

double canal_cents(const StepAsked& a, double mm) {
  const double area = field_of(a).area.value();
  return cents_of(dispatch::water_cost(*a.table, mm * area * m3_per_mm_ha, true, area));
}

}  // namespace aftercut::planner
