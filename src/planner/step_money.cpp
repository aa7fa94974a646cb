#include "step_money.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/money.hpp"
#include "aftercut/dispatch/waterways.hpp"

namespace aftercut::planner {
namespace {

constexpr double cents_per_unit = 100.0;

double cents_of(const plan::CostParts& c) { return static_cast<double>(c.out_of_pocket()); }

/// Dry, of the whole field.
double baled_kg(const StepAsked& a, const season::FieldYear& sim) {
  season::FieldYear after = sim;
  after.apply(operation_of(a));
  return (after.straw_ledger().baled - sim.straw_ledger().baled) * field_of(a).area.value();
}

}  // namespace

double baling_cents(const StepAsked& a, const season::FieldYear& sim) {
  const double kg = baled_kg(a, sim);
  double least = std::numeric_limits<double>::max();
  for (const auto& o : a.table->outfits[a.field][static_cast<std::size_t>(a.step->operation)])
    least =
        std::min(least, cents_of(dispatch::baled_cost(*a.table, o.implement, kg, field_of(a).area.value())));
  return least;
}

double begun_baling_cents(const StepAsked& a, const season::FieldYear& sim, int baled_by) {
  const auto whole = dispatch::baled_cost(*a.table, baled_by, baled_kg(a, sim), field_of(a).area.value());
  return std::min({0.0, baling_cents(a, sim), cents_of(whole)}) - bale_price_cents(*a.table);
}

double bale_price_cents(const dispatch::Table& table) {
  const farm::Farm& farm = table.problem->farm;
  return cents_per_unit * (1.0 - farm.bales.storage_loss) * std::max(0.0, farm.prices.straw_per_bale.value());
}

std::vector<double> rounds_cents(const StepAsked& a) {
  const int days = a.table->problem->farm.season.days;
  const int out = std::min(dispatch::drawdown_day(*a.table, field_of(a), *a.recipe), days);
  std::vector<double> after(static_cast<std::size_t>(days) + 1, 0.0);
  for (int d = out - 1; d > 0; --d) {
    const auto day = static_cast<std::size_t>(d);
    const double rain_mm = a.table->drivers[a.year].rain_mm[day];
    after[day - 1] =
        after[day] + cents_of(dispatch::storm_round(a.table->problem->farm, a.field, rain_mm).cost);
  }
  return after;
}

double canal_cents(const StepAsked& a, double mm) {
  const double area = field_of(a).area.value();
  return cents_of(dispatch::water_cost(*a.table, mm * area * m3_per_mm_ha,
                                       !dispatch::watered_before(*a.table, a.field), area));
}

}  // namespace aftercut::planner
