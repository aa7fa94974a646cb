#include "aftercut/dispatch/hired.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/random.hpp"
#include "aftercut/dispatch/money.hpp"

namespace aftercut::dispatch {
namespace {

constexpr int never = std::numeric_limits<int>::max();

bool can_do(const Table& t, std::size_t field, int operation, int implement) {
  const auto& outfits = t.outfits[field][static_cast<std::size_t>(operation)];
  return std::any_of(outfits.begin(), outfits.end(),
                     [&](const Outfit& o) { return o.implement == implement; });
}

/// The day on which the outfit is there in this weather year; never: it does not come.
/// Once the season has gone on without it, the days that have passed are none of its days any more.
int arrival(const Table& t, std::size_t implement, int year) {
  const machinery::Implement& i = t.problem->farm.implements[implement];
  if (i.hire->comes.empty() || (t.so_far && t.so_far->implements[implement].here)) return 0;
  double drawn =
      Draws{t.seed, stream_of("hire-comes:" + i.id.value), static_cast<std::uint64_t>(year)}.uniform();
  const auto passed = [&](const machinery::ComesBy& c) { return t.so_far && c.day < t.problem->as_of; };
  double gone = 0.0;
  for (const auto& c : i.hire->comes)
    if (passed(c)) gone = std::max(gone, c.chance);
  if (gone > 0.0) drawn = gone + (1.0 - gone) * drawn;
  for (const auto& c : i.hire->comes)
    if (!passed(c) && drawn < c.chance) return t.problem->farm.season.day(c.day);
  return never;
}

}  // namespace

std::vector<std::vector<int>> places_in_order(const farm::Farm& farm) {
  std::vector<std::vector<int>> places(farm.implements.size());
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    const auto& hire = farm.implements[i].hire;
    if (!hire || hire->order.empty()) continue;
    for (const auto& field : farm.fields)
      places[i].push_back(static_cast<int>(std::find(hire->order.begin(), hire->order.end(), field.id) -
                                           hire->order.begin()));
  }
  return places;
}

std::vector<int> arrivals(const Table& t, int year) {
  std::vector<int> days;
  for (std::size_t i = 0; i < t.problem->farm.implements.size(); ++i)
    days.push_back(t.problem->farm.implements[i].hire ? arrival(t, i, year) : 0);
  return days;
}

std::vector<Outfit> under_contract(const farm::Farm& farm, const method::Operation& op,
                                   std::vector<Outfit> outfits) {
  if (op.implement != "rake") return outfits;
  const bool to_bale = op.effect.lay_after == straw::Lay::windrow;
  bool balers = false, all_rake = true;
  for (const auto& i : farm.implements) {
    if (i.kind != "baler") continue;
    balers = true;
    all_rake = all_rake && i.hire && i.hire->rakes;
  }
  std::erase_if(outfits, [&](const Outfit& o) {
    const auto& hire = farm.implements[static_cast<std::size_t>(o.implement)].hire;
    const bool theirs = hire && hire->with;
    return theirs ? !to_bale : to_bale && balers && all_rake;
  });
  return outfits;
}

double area_asked(const Table& t, const plan::Decision& decision, int implement) {
  const farm::Farm& farm = t.problem->farm;
  double area = 0.0;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    if (decision.method[f] == plan::none) continue;
    const auto& steps = farm.book.recipes[static_cast<std::size_t>(decision.method[f])].steps;
    if (std::any_of(steps.begin(), steps.end(),
                    [&](const method::Step& s) { return can_do(t, f, s.operation, implement); }))
      area += farm.fields[f].area.value();
  }
  return area;
}

bool waits_for(const Table& t, std::size_t field, const Progress& p, bool pass_ends, int implement,
               method::Season season) {
  if (p.recipe == nullptr) return false;
  for (auto k = static_cast<std::size_t>(p.step); k < p.recipe->steps.size(); ++k) {
    const method::Step& s = p.recipe->steps[k];
    const bool ends_today = static_cast<int>(k) == p.step && pass_ends && p.pass + 1 >= p.passes;
    if (s.season == season && !ends_today && can_do(t, field, s.operation, implement)) return true;
  }
  return false;
}

HiredSeason::HiredSeason(const Table& table, const plan::Decision& decision, std::size_t year, bool alone)
    : table_{&table}, there_from_{table.hired_from[year]}, paid_(table.implement_here.size()) {
  const farm::Farm& farm = table.problem->farm;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    const auto& hire = farm.implements[i].hire;
    if (!hire) continue;
    keeps_order_ = keeps_order_ || !hire->order.empty();
    if (table.so_far) paid_[i].called_out = table.so_far->implements[i].called_out;
    if (hire->least_area.value() <= 0.0) continue;
    if (table.so_far) paid_[i].area_ha = table.so_far->implements[i].area_ha;
    if (hire->below_least == machinery::BelowLeast::charges_least)
      paid_[i].cents.assign(farm.fields.size(), 0);
    else if (!alone && !(table.so_far && table.so_far->implements[i].here) &&
             area_asked(table, decision, static_cast<int>(i)) < hire->least_area.value() - 1e-9)
      there_from_[i] = never;
  }
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    const auto& hire = farm.implements[i].hire;
    if (!hire || !hire->with) continue;
    for (std::size_t k = 0; k < farm.implements.size(); ++k)
      if (farm.implements[k].id == *hire->with) there_from_[i] = there_from_[k];
  }
}

std::vector<int> HiredSeason::out_of_turn(
    std::size_t field, int operation,
    const std::function<bool(std::size_t other, int implement)>& waits) const {
  std::vector<int> barred;
  for (const Outfit& o : table_->outfits[field][static_cast<std::size_t>(operation)])
    if (std::ranges::any_of(before(field, o.implement),
                            [&](std::size_t other) { return waits(other, o.implement); }))
      barred.push_back(o.implement);
  return barred;
}

std::vector<std::size_t> HiredSeason::before(std::size_t field, int implement) const {
  std::vector<std::size_t> fields;
  if (implement == plan::none) return fields;
  const auto& place = table_->place_in_order[static_cast<std::size_t>(implement)];
  for (std::size_t g = 0; g < place.size(); ++g)
    if (place[g] < place[field]) fields.push_back(g);
  return fields;
}

plan::CostParts HiredSeason::call_out(int implement) {
  if (implement == plan::none || paid_[static_cast<std::size_t>(implement)].called_out) return {};
  paid_[static_cast<std::size_t>(implement)].called_out = true;
  return call_out_cost(table_->problem->farm, implement);
}

void HiredSeason::note(int implement, std::size_t field, std::int64_t hire_cents, double area_ha) {
  if (implement == plan::none) return;
  Paid& paid = paid_[static_cast<std::size_t>(implement)];
  if (paid.cents.empty()) return;
  paid.cents[field] += hire_cents;
  paid.area_ha += area_ha;
}

plan::CostParts HiredSeason::top_up(std::size_t field) const {
  plan::CostParts c;
  for (std::size_t i = 0; i < paid_.size(); ++i) {
    const Paid& paid = paid_[i];
    if (paid.cents.empty() || paid.area_ha <= 0.0) continue;
    const double least = table_->problem->farm.implements[i].hire->least_area.value();
    if (paid.area_ha < least)
      c.hire += to_cents(static_cast<double>(paid.cents[field]) / 100.0 * (least / paid.area_ha - 1.0));
  }
  return c;
}

}  // namespace aftercut::dispatch
