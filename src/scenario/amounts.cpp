#include "aftercut/scenario/amounts.hpp"

#include <algorithm>

#include "aftercut/core/require.hpp"
#include "aftercut/machinery/bales.hpp"

namespace aftercut::scenario {
namespace {

using plan::PriceOf;

/// The charge for a least area that was not reached makes every unit count so many times.
double charged_times(const machinery::Hire& hire, double worked_ha) {
  const double least = hire.least_area.value();
  const bool charges = hire.below_least == machinery::BelowLeast::charges_least;
  return charges && worked_ha > 0.0 && worked_ha < least ? least / worked_ha : 1.0;
}

bool bales(const farm::Farm& farm, int operation) {
  return farm.book.operations[static_cast<std::size_t>(operation)].effect.bale_share > 0.0;
}

/// A field's baling before the plan's first day. Straw is sold when its pass is over: all of a pass that runs
/// is still to come.
struct BaledBefore {
  double kg_per_ha = 0.0, running_ha = 0.0;
  int by = plan::none;
};

BaledBefore baled_before(const farm::Farm& farm, const SoFar& so_far, std::size_t field) {
  if (!so_far) return {};
  const journal::FieldState& s = so_far->fields[field];
  BaledBefore b{.kg_per_ha = s.now.life.straw.baled};
  const auto& pass = s.baling_waits ? s.baling_waits : s.running;
  if (pass && bales(farm, pass->operation)) {
    b.running_ha = pass->area_ha;
    b.by = pass->implement;
  }
  return b;
}

void add_straw(Amounts& a, const farm::Farm& farm, const plan::YearRun& run, const SoFar& so_far) {
  std::vector<BaledBefore> before;
  std::vector<int> baled_by;
  for (std::size_t f = 0; f < run.fields.size(); ++f) {
    before.push_back(baled_before(farm, so_far, f));
    baled_by.push_back(before[f].by);
  }
  const double sold = 1.0 - farm.bales.storage_loss;
  for (const plan::Work& w : run.work) {
    if (!bales(farm, w.operation) || w.stands_by) continue;
    baled_by[static_cast<std::size_t>(w.field)] = w.implement;
    a.straw_ha += w.area_ha;
  }
  for (std::size_t f = 0; f < run.fields.size(); ++f) {
    const double kg = (run.fields[f].baled_kg_per_ha - before[f].kg_per_ha) * farm.fields[f].area.value();
    if (kg <= 0.0) continue;
    a.straw_ha += before[f].running_ha;
    const double tonnes = kg / machinery::bale_dry_share / 1000.0;
    const int count = machinery::bales_of(Kilogram{1000.0 * tonnes}, farm.bales);
    a.straw_t += sold * tonnes;
    a.straw_bales += sold * count;
    if (baled_by[f] == plan::none) continue;
    HiredAmount& by = a.hired[static_cast<std::size_t>(baled_by[f])];
    by.tonnes += tonnes;
    by.bales += count;
  }
}

}  // namespace

Amounts amounts_of(const farm::Farm& farm, const plan::YearRun& run, const SoFar& so_far) {
  Amounts a;
  a.hired.resize(farm.implements.size());
  for (const plan::Work& w : run.work) {
    if (w.implement == plan::none || w.stands_by) continue;
    HiredAmount& by = a.hired[static_cast<std::size_t>(w.implement)];
    by.ha += w.area_ha;
    by.hours += (w.end_min - w.start_min) / 60.0;
  }
  add_straw(a, farm, run, so_far);
  for (std::size_t i = 0; i < a.hired.size(); ++i) {
    if (!farm.implements[i].hire) {
      a.hired[i] = {};
      continue;
    }
    HiredAmount& by = a.hired[i];
    const double before_ha = so_far ? so_far->implements[i].area_ha : 0.0;
    const double times = charged_times(*farm.implements[i].hire, before_ha + by.ha);
    by = {times * by.ha, times * by.hours, times * by.tonnes, times * by.bales};
  }
  for (const plan::FieldRun& f : run.fields) {
    a.diesel_l += f.fuel_l;
    a.water_m3 += f.water_m3;
  }
  return a;
}

Amounts plus_share(Amounts sum, const Amounts& more, double share) {
  sum.straw_t += share * more.straw_t;
  sum.straw_ha += share * more.straw_ha;
  sum.straw_bales += share * more.straw_bales;
  sum.diesel_l += share * more.diesel_l;
  sum.water_m3 += share * more.water_m3;
  sum.hired.resize(std::max(sum.hired.size(), more.hired.size()));
  for (std::size_t i = 0; i < more.hired.size(); ++i) {
    sum.hired[i].ha += share * more.hired[i].ha;
    sum.hired[i].hours += share * more.hired[i].hours;
    sum.hired[i].tonnes += share * more.hired[i].tonnes;
    sum.hired[i].bales += share * more.hired[i].bales;
  }
  return sum;
}

double amount_of(const Amounts& a, PriceOf of, int implement) {
  const auto hired = [&] {
    const auto i = static_cast<std::size_t>(implement);
    return implement != plan::none && i < a.hired.size() ? a.hired[i] : HiredAmount{};
  };
  switch (of) {
    case PriceOf::straw:
      return a.straw_t;
    case PriceOf::straw_area:
      return a.straw_ha;
    case PriceOf::straw_bale:
      return a.straw_bales;
    case PriceOf::diesel:
      return a.diesel_l;
    case PriceOf::water:
      return a.water_m3;
    case PriceOf::hire_area:
      return hired().ha;
    case PriceOf::hire_hour:
      return hired().hours;
    case PriceOf::hire_mass:
      return hired().tonnes;
    case PriceOf::hire_bale:
      return hired().bales;
  }
  fail("a price without an amount");
}

double cost_per_unit(const farm::Farm& farm, PriceOf of) {
  if (of == PriceOf::straw || of == PriceOf::straw_area || of == PriceOf::straw_bale) return -1.0;
  return of == PriceOf::diesel ? 1.0 + farm.prices.lubricant_share : 1.0;
}

double price_of(const farm::Farm& farm, PriceOf of, int implement) {
  const auto hire = [&] {
    const auto& terms = farm.implements[static_cast<std::size_t>(implement)].hire;
    return terms ? *terms : machinery::Hire{};
  };
  switch (of) {
    case PriceOf::straw:
      return farm.prices.straw_per_tonne.value();
    case PriceOf::straw_area:
      return farm.prices.straw_per_ha.value();
    case PriceOf::straw_bale:
      return farm.prices.straw_per_bale.value();
    case PriceOf::diesel:
      return farm.prices.diesel_per_l.value();
    case PriceOf::water:
      return farm.supply ? farm.supply->per_m3.value() : 0.0;
    case PriceOf::hire_area:
      return hire().per_ha.value();
    case PriceOf::hire_hour:
      return hire().per_hour.value();
    case PriceOf::hire_mass:
      return hire().per_tonne.value();
    case PriceOf::hire_bale:
      return hire().per_bale.value();
  }
  fail("a price without a number");
}

}  // namespace aftercut::scenario
