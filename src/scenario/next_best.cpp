#include "aftercut/scenario/next_best.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/core/numbers.hpp"

namespace aftercut::scenario {
namespace {

using plan::PriceOf;

constexpr double same_amount = 0.01;  // of a unit: no difference that outputs would show

/// Of prices that pay for the same straw or outfit, the one that makes most of the difference; of those that
/// are all zero the first.
PriceOf weightiest(const farm::Farm& farm, const Amounts& mine, const Amounts& other,
                   std::initializer_list<PriceOf> prices, int implement) {
  PriceOf best = *prices.begin();
  double most = 0.0;
  for (const PriceOf of : prices) {
    const double weight = std::abs(price_of(farm, of, implement) *
                                   (amount_of(other, of, implement) - amount_of(mine, of, implement)));
    if (weight > most) {
      best = of;
      most = weight;
    }
  }
  return best;
}

bool pays_for_straw(PriceOf of) {
  return of == PriceOf::straw || of == PriceOf::straw_area || of == PriceOf::straw_bale;
}

/// The price at which the saving is used up, if one within reach is.
std::optional<double> even_price(PriceOf of, double now, double saves, double change_per_price) {
  const double even = now - saves / change_per_price;
  const double least = pays_for_straw(of) ? 0.0 : now / plan::break_even_reach;
  const bool reached = even >= least && (now <= 0.0 || even <= plan::break_even_reach * now);
  return reached ? std::optional<double>{even} : std::nullopt;
}

void add_break_even(std::vector<plan::BreakEven>& all, const farm::Farm& farm, const Amounts& mine,
                    const Amounts& other, double saves, PriceOf of, int implement = plan::none) {
  plan::BreakEven b{.of = of, .implement = implement, .now = price_of(farm, of, implement)};
  b.chosen_amount = amount_of(mine, of, implement);
  b.next_amount = amount_of(other, of, implement);
  if (std::abs(b.next_amount - b.chosen_amount) <= same_amount) return;
  const double change = cost_per_unit(farm, of) * (b.next_amount - b.chosen_amount);
  b.even = even_price(of, b.now, saves, change);
  all.push_back(b);
}

std::vector<plan::BreakEven> break_evens(const farm::Farm& farm, const FarmOutcome& mine,
                                         const FarmOutcome& other, double saves) {
  std::vector<plan::BreakEven> all;
  const auto add = [&](PriceOf of, int implement = plan::none) {
    add_break_even(all, farm, mine.amounts, other.amounts, saves, of, implement);
  };
  add(weightiest(farm, mine.amounts, other.amounts,
                 {PriceOf::straw, PriceOf::straw_area, PriceOf::straw_bale}, plan::none));
  add(PriceOf::diesel);
  if (farm.supply) add(PriceOf::water);
  for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i) {
    const auto& hire = farm.implements[static_cast<std::size_t>(i)].hire;
    if (!hire || hire->with) continue;
    const PriceOf of =
        weightiest(farm, mine.amounts, other.amounts,
                   {PriceOf::hire_mass, PriceOf::hire_area, PriceOf::hire_hour, PriceOf::hire_bale}, i);
    if (price_of(farm, of, i) > 0.0) add(of, i);
  }
  return all;
}

/// The break-even lies within a share of today's price.
bool turns_within(const plan::NextBest& next, bool (*is_of)(PriceOf), double share) {
  return std::any_of(next.break_even.begin(), next.break_even.end(), [&](const plan::BreakEven& b) {
    return is_of(b.of) && b.even && b.now > 0.0 && std::abs(*b.even - b.now) <= share * b.now;
  });
}

}  // namespace

int next_method(const std::vector<plan::MethodOutcome>& methods, int chosen) {
  const plan::MethodOutcome* next = nullptr;
  for (const plan::MethodOutcome& m : methods)
    if (m.possible && m.method != chosen && (next == nullptr || m.farm_cost < next->farm_cost)) next = &m;
  return next == nullptr ? plan::none : next->method;
}

std::optional<plan::NextBest> next_best(const farm::Farm& farm, const Outcomes& outcomes, std::size_t field,
                                        int chosen) {
  const auto& methods = outcomes.methods[field];
  const int other = chosen == plan::none ? plan::none : next_method(methods, chosen);
  if (other == plan::none) return std::nullopt;
  const auto at = [](int m) { return static_cast<std::size_t>(m); };
  const FarmOutcome& mine = outcomes.farm[field][at(chosen)];
  const FarmOutcome& next = outcomes.farm[field][at(other)];
  plan::NextBest n{.method = other};
  std::int64_t sum = 0;
  for (std::size_t y = 0; y < mine.cost_by_year.size(); ++y) {
    n.saves_by_year.push_back(next.cost_by_year[y] - mine.cost_by_year[y]);
    sum += n.saves_by_year.back();
  }
  n.saves = to_cents(static_cast<double>(sum) / static_cast<double>(n.saves_by_year.size()) / 100.0);
  n.spread = standard_error(std::vector<double>(n.saves_by_year.begin(), n.saves_by_year.end()));
  for (const plan::CostPart& part : plan::cost_parts)
    n.parts.*part.of = next.parts.*part.of - mine.parts.*part.of;
  n.on_other_fields = n.saves - (methods[at(other)].mean_cost.out_of_pocket() -
                                 methods[at(chosen)].mean_cost.out_of_pocket());
  n.break_even = break_evens(farm, mine, next, static_cast<double>(n.saves) / 100.0);
  return n;
}

plan::TossUp toss_up(const farm::Farm& farm, const plan::NextBest& next, std::size_t field) {
  const farm::Target& target = farm.target;
  const auto saves = std::abs(static_cast<double>(next.saves));
  plan::TossUp t;
  t.margin = saves <= 100.0 * target.toss_up_per_ha.value() * farm.fields[field].area.value();
  t.years = next.saves_by_year.size() > 1 && saves <= next.spread;
  t.straw_price = turns_within(next, pays_for_straw, target.straw_price_spread);
  t.diesel_price = turns_within(
      next, [](PriceOf of) { return of == PriceOf::diesel; }, target.diesel_price_spread);
  return t;
}

}  // namespace aftercut::scenario
