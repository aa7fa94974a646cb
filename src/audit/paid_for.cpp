#include "paid_for.hpp"

#include <algorithm>

#include "bales.hpp"
#include "so_far.hpp"

namespace aftercut::audit {
namespace {

using plan::PriceOf;

bool takes_bales(const farm::Farm& farm, const plan::Work& w) {
  return !w.stands_by &&
         farm.book.operations.at(static_cast<std::size_t>(w.operation)).effect.bale_share > 0.0;
}

/// A baling that the plan's first morning found under way; its straw is sold when it ends.
const journal::Running* under_way(const Facts& facts, int field) {
  const journal::FieldState* s = state_of(facts, field);
  if (s == nullptr || !s->running) return nullptr;
  if (s->baling_waits) return &*s->baling_waits;
  const auto& op = facts.farm().book.operations.at(static_cast<std::size_t>(s->running->operation));
  return op.effect.bale_share > 0.0 ? &*s->running : nullptr;
}

/// The outfit that bales the field in this year; the last one where several do.
int baled_by(const Facts& facts, const plan::YearRun& run, int field) {
  const farm::Farm& farm = facts.farm();
  const journal::Running* begun = under_way(facts, field);
  int by = begun != nullptr ? begun->implement : plan::none;
  for (const plan::Work& w : run.work)
    if (w.field == field && takes_bales(farm, w)) by = w.implement;
  return by;
}

/// An outfit that charges for its least area is paid for so many times what it did.
double least_area_factor(const Facts& facts, const plan::YearRun& run, int implement) {
  const auto& hire = facts.farm().implements.at(static_cast<std::size_t>(implement)).hire;
  if (!hire || hire->below_least != machinery::BelowLeast::charges_least) return 1.0;
  double ha = facts.so_far ? facts.so_far->implements.at(static_cast<std::size_t>(implement)).area_ha : 0.0;
  for (const plan::Work& w : run.work)
    if (w.implement == implement) ha += w.area_ha;
  return ha > 0.0 && ha < hire->least_area.value() ? hire->least_area.value() / ha : 1.0;
}

/// Of one year's stretches, area or hours of one outfit.
double worked(const plan::YearRun& run, int implement, bool hours) {
  double sum = 0.0;
  for (const plan::Work& w : run.work)
    if (w.implement == implement && !w.stands_by) sum += hours ? (w.end_min - w.start_min) / 60.0 : w.area_ha;
  return sum;
}

/// Oven-dry straw of a field that is baled from the plan's first morning on [kg].
double baled_kg(const Facts& facts, const std::vector<plan::FieldRun>& fields, int field) {
  const auto f = static_cast<std::size_t>(field);
  const journal::FieldState* s = state_of(facts, field);
  const double before = s == nullptr ? 0.0 : s->now.life.straw.baled;
  return (fields[f].baled_kg_per_ha - before) * facts.farm().fields[f].area.value();
}

/// Tonnes or bales of one year; `implement` none: of all outfits.
double baled(const Facts& facts, const plan::YearRun& run, const std::vector<plan::FieldRun>& fields,
             int implement, bool count) {
  const farm::Farm& farm = facts.farm();
  double sum = 0.0;
  for (int f = 0; f < static_cast<int>(fields.size()); ++f) {
    const double kg = baled_kg(facts, fields, f);
    if (kg <= 0.0) continue;
    if (implement != plan::none && baled_by(facts, run, f) != implement) continue;
    sum += count ? bales_from(farm, kg) : kg / dry_share_as_sold / 1000.0;
  }
  return sum;
}

/// Hectares whose baling ends: those of a pass under way count with it.
double baled_ha(const Facts& facts, const plan::YearRun& run, const std::vector<plan::FieldRun>& fields) {
  double sum = 0.0;
  for (const plan::Work& w : run.work) sum += takes_bales(facts.farm(), w) ? w.area_ha : 0.0;
  for (int f = 0; f < static_cast<int>(fields.size()); ++f)
    if (const journal::Running* begun = under_way(facts, f);
        begun != nullptr && baled_kg(facts, fields, f) > 0.0)
      sum += begun->area_ha;
  return sum;
}

double of_year(const Facts& facts, const plan::YearRun& run, const std::vector<plan::FieldRun>& fields,
               PriceOf of, int implement) {
  const farm::Farm& farm = facts.farm();
  const double sold = 1.0 - farm.bales.storage_loss;
  double sum = 0.0;
  switch (of) {
    case PriceOf::straw:
      return sold * baled(facts, run, fields, plan::none, false);
    case PriceOf::straw_bale:
      return sold * baled(facts, run, fields, plan::none, true);
    case PriceOf::straw_area:
      return baled_ha(facts, run, fields);
    case PriceOf::diesel:
      for (const plan::FieldRun& f : fields) sum += f.fuel_l;
      return sum;
    case PriceOf::water:
      for (const plan::FieldRun& f : fields) sum += f.water_m3;
      return sum;
    case PriceOf::hire_area:
    case PriceOf::hire_hour:
      return least_area_factor(facts, run, implement) * worked(run, implement, of == PriceOf::hire_hour);
    case PriceOf::hire_mass:
    case PriceOf::hire_bale:
      return least_area_factor(facts, run, implement) *
             baled(facts, run, fields, implement, of == PriceOf::hire_bale);
  }
  return sum;
}

}  // namespace

double paid_units(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays, PriceOf of,
                  int implement) {
  double sum = 0.0;
  for (std::size_t y = 0; y < replays.years.size(); ++y) {
    const auto run = std::find_if(planned.runs.begin(), planned.runs.end(),
                                  [&](const plan::YearRun& r) { return r.year == replays.years[y]; });
    if (run != planned.runs.end()) sum += of_year(facts, *run, replays.fields[y], of, implement);
  }
  return sum / static_cast<double>(replays.years.size());
}

std::optional<double> entered_price(const farm::Farm& farm, PriceOf of, int implement) {
  if (of == PriceOf::straw) return farm.prices.straw_per_tonne.value();
  if (of == PriceOf::straw_area) return farm.prices.straw_per_ha.value();
  if (of == PriceOf::straw_bale) return farm.prices.straw_per_bale.value();
  if (of == PriceOf::diesel) return farm.prices.diesel_per_l.value();
  if (of == PriceOf::water)
    return farm.supply ? std::optional<double>{farm.supply->per_m3.value()} : std::nullopt;
  if (implement < 0 || implement >= static_cast<int>(farm.implements.size())) return std::nullopt;
  const auto& hire = farm.implements[static_cast<std::size_t>(implement)].hire;
  if (!hire) return std::nullopt;
  if (of == PriceOf::hire_area) return hire->per_ha.value();
  if (of == PriceOf::hire_hour) return hire->per_hour.value();
  return of == PriceOf::hire_mass ? hire->per_tonne.value() : hire->per_bale.value();
}

bool is_straw_price(PriceOf of) {
  return of == PriceOf::straw || of == PriceOf::straw_area || of == PriceOf::straw_bale;
}

double weight_of_price(const farm::Farm& farm, PriceOf of) {
  if (is_straw_price(of)) return -1.0;
  return of == PriceOf::diesel ? 1.0 + farm.prices.lubricant_share : 1.0;
}

}  // namespace aftercut::audit
