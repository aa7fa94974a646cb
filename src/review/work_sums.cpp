#include "work_sums.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "aftercut/dispatch/money.hpp"
#include "aftercut/machinery/bales.hpp"
#include "aftercut/machinery/capacity.hpp"
#include "aftercut/review/season_review.hpp"

namespace aftercut::review {
namespace {

/// The outfit that the record names, as far as it names one; null: none such.
const dispatch::Outfit* outfit_of(const dispatch::Table& t, std::size_t field, int operation, int tractor,
                                  int implement) {
  for (const dispatch::Outfit& o : t.outfits[field][static_cast<std::size_t>(operation)])
    if ((implement == plan::none || o.implement == implement) &&
        (tractor == plan::none || o.tractor == tractor || o.tractor == plan::none))
      return &o;
  return nullptr;
}

/// Out of pocket, money: fuel, repair, paid people, hire by area and hour, fees. Straw, water and what baling
/// costs by its straw are not in it.
double cost_of(const dispatch::Table& t, std::size_t field, int operation, int tractor, int implement,
               const auto& crew, const plan::WorkSum& w) {
  const farm::Farm& farm = t.problem->farm;
  double money = w.fuel_l * farm.prices.diesel_per_l.value() * (1.0 + farm.prices.lubricant_share);
  if (const auto* o = outfit_of(t, field, operation, tractor, implement))
    money += o->repair_per_hour * w.hours;
  for (const int who : crew)
    if (who != plan::none && farm.operators[static_cast<std::size_t>(who)].paid)
      money += farm.operators[static_cast<std::size_t>(who)].wage_per_h.value() * w.hours;
  if (implement != plan::none)
    if (const auto& hire = farm.implements[static_cast<std::size_t>(implement)].hire)
      money += hire->per_ha.value() * w.ha + hire->per_hour.value() * w.hours;
  if (farm.book.operations[static_cast<std::size_t>(operation)].burning)
    money += farm.prices.burn_fee_per_ha.value() * w.ha;
  return money;
}

DoneWork with_expected(const dispatch::Table& t, DoneWork d) {
  const farm::WorkDone& w = d.record;
  const auto* outfit = outfit_of(t, w.field, w.operation, w.tractor, w.implement);
  if (outfit != nullptr) d.expected_hours = d.ha / outfit->ha_per_hour;
  d.hours_recorded = w.hours.has_value();
  d.hours = w.hours.value_or(d.expected_hours);
  d.fuel_l = w.fuel_l.value_or(outfit != nullptr ? outfit->fuel_l_per_hour * d.expected_hours : 0.0);
  return d;
}

/// What a season's baling of a field costs by its straw: hire by tonne and bale, twine; and the tonnes.
struct Baled {
  double cost = 0.0, tonnes = 0.0;
};
Baled baled(const dispatch::Table& t, std::size_t field, int implement, double kg_per_ha) {
  const double area = t.problem->farm.fields[field].area.value();
  const plan::CostParts c = dispatch::baled_cost(t, implement, kg_per_ha * area, area);
  return {static_cast<double>(c.hire + c.twine) / 100.0,
          kg_per_ha * area / machinery::bale_dry_share / 1000.0};
}

bool bales(const dispatch::Table& t, int operation) {
  return t.problem->farm.book.operations[static_cast<std::size_t>(operation)].effect.bale_share > 0.0;
}

/// Adds what the straw of each field costs that a run bales before `until`, to the operation that baled it.
void add_baled(const dispatch::Table& t, const plan::YearRun& run, int until, double share,
               std::vector<plan::WorkReview>& all) {
  std::map<int, const plan::Work*> last;  // of a field
  for (const plan::Work& w : run.work)
    if (bales(t, w.operation) && !w.stands_by && w.day < until) last[w.field] = &w;
  for (const auto& [field, w] : last) {
    const auto f = static_cast<std::size_t>(field);
    const Baled b = baled(t, f, w->implement, run.fields[f].baled_kg_per_ha);
    plan::WorkReview& r = all[static_cast<std::size_t>(w->operation)];
    r.planned.cost += share * b.cost;
    r.planned.straw_t += share * b.tonnes;
  }
}

/// The same of what was done.
void add_baled(const dispatch::Table& t, std::vector<plan::WorkReview>& all) {
  if (!t.so_far) return;
  for (std::size_t f = 0; f < t.so_far->fields.size(); ++f) {
    const journal::FieldState& s = t.so_far->fields[f];
    const auto by =
        std::ranges::find_if(s.done, [&](const auto& stage) { return bales(t, stage.operation); });
    if (by == s.done.end() || s.now.life.straw.baled <= 0.0) continue;
    const Baled b = baled(t, f, s.baled_by, s.now.life.straw.baled);
    plan::WorkReview& r = all[static_cast<std::size_t>(by->operation)];
    r.done.cost += b.cost;
    r.done.straw_t += b.tonnes;
  }
}

/// Which figure of farm.json sets the pace of most of the work: area a day, mass an hour, or speed.
void name_figure(plan::RateReview& r, const machinery::Implement& i, int by_mass) {
  if (i.entered_ha_per_day) {
    r.key = "area_per_day";
    r.now = *i.entered_ha_per_day;
  } else if (i.throughput && 2 * by_mass > r.entries) {
    r.key = "throughput";
    r.now = i.throughput->value();
  } else {
    r.key = "speed";
    r.now = i.speed.value();
  }
}

}  // namespace

std::vector<DoneWork> done_works(const dispatch::Table& t) {
  std::vector<DoneWork> out;
  struct Pass {
    int operation = plan::none;
    double ha = 0.0;
  };
  std::map<std::pair<std::size_t, bool>, Pass> running;  // of a field; hauling beside the rest
  for (const farm::Happened& h : t.problem->so_far.events) {
    const auto* w = std::get_if<farm::WorkDone>(&h.what);
    if (w == nullptr) continue;
    const auto& op = t.problem->farm.book.operations[static_cast<std::size_t>(w->operation)];
    Pass& pass = running[{w->field, dispatch::hauls_bales(op)}];
    if (pass.operation != w->operation) pass = {w->operation, 0.0};
    const double left = std::max(0.0, t.problem->farm.fields[w->field].area.value() - pass.ha);
    const double ha = w->finishes ? left : std::min(left, w->area_ha);
    pass.ha += ha;
    if (w->finishes || w->no_more) pass = {};
    if (!w->by_others && ha > 0.0) out.push_back(with_expected(t, {.record = *w, .ha = ha}));
  }
  return out;
}

std::vector<plan::WorkReview> work_reviews(const dispatch::Table& t, const std::vector<DoneWork>& done,
                                           const std::vector<plan::YearRun>& runs, int until) {
  const auto& operations = t.problem->farm.book.operations;
  std::vector<plan::WorkReview> all(operations.size());
  for (const plan::YearRun& run : runs)
    for (const plan::Work& w : run.work) {
      if (w.day >= until || w.stands_by) continue;
      plan::WorkSum sum{w.area_ha, (w.end_min - w.start_min) / 60.0, w.fuel_l, 0.0};
      sum.cost =
          cost_of(t, static_cast<std::size_t>(w.field), w.operation, w.tractor, w.implement, w.crew, sum);
      add(all[static_cast<std::size_t>(w.operation)].planned, sum, 1.0 / static_cast<double>(runs.size()));
    }
  for (const plan::YearRun& run : runs) add_baled(t, run, until, 1.0 / static_cast<double>(runs.size()), all);
  for (const DoneWork& d : done) {
    plan::WorkReview& r = all[static_cast<std::size_t>(d.record.operation)];
    plan::WorkSum sum{d.ha, d.hours, d.fuel_l, 0.0};
    sum.cost = cost_of(t, d.record.field, d.record.operation, d.record.tractor, d.record.implement,
                       d.record.crew, sum);
    add(r.done, sum);
    r.hours_missing += d.hours_recorded ? 0 : 1;
  }
  add_baled(t, all);
  std::vector<plan::WorkReview> out;
  for (std::size_t o = 0; o < all.size(); ++o) {
    all[o].operation = operations[o].id.value;
    if (all[o].planned.ha > 0.0 || all[o].done.ha > 0.0) out.push_back(all[o]);
  }
  return out;
}

std::vector<plan::RateReview> rate_reviews(const dispatch::Table& t, const std::vector<DoneWork>& done) {
  const farm::Farm& farm = t.problem->farm;
  std::vector<plan::RateReview> out;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    const machinery::Implement& implement = farm.implements[i];
    plan::RateReview r{.implement = implement.id.value};
    std::vector<double> logs;
    int by_mass = 0;
    for (const DoneWork& d : done) {
      if (d.record.implement != static_cast<int>(i) || !d.hours_recorded || d.hours <= 0.0 ||
          d.expected_hours <= 0.0)
        continue;
      logs.push_back(std::log(d.hours / d.expected_hours));
      const HaPerHour by_area = machinery::field_capacity(implement.speed, implement.width,
                                                          farm::efficiency_on(farm, d.record.field, i));
      by_mass += d.ha < 0.999 * by_area.value() * d.expected_hours ? 1 : 0;
      r.ha += d.ha;
      r.hours += d.hours;
      r.expected_hours += d.expected_hours;
    }
    if (logs.empty()) continue;
    r.entries = static_cast<int>(logs.size());
    double mean = 0.0, square = 0.0;
    for (const double x : logs) mean += x / r.entries;
    for (const double x : logs) square += (x - mean) * (x - mean);
    r.times = std::exp(mean);
    if (r.entries > 1) r.spread = std::sqrt(square / (r.entries - 1) / r.entries);
    name_figure(r, implement, by_mass);
    const bool tells =
        r.entries >= least_rate_entries &&
        std::abs(mean) > std::max(std::log1p(least_rate_difference), rate_standard_errors * r.spread);
    if (tells) r.proposed = r.now / r.times;
    out.push_back(std::move(r));
  }
  return out;
}

}  // namespace aftercut::review
