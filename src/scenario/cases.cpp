// The built-in changes of a farm.

#include <algorithm>
#include <functional>

#include "aftercut/burn/rules.hpp"
#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/scenario/what_if.hpp"

namespace aftercut::scenario {
namespace {

/// The third of the years with least (or most) rain, in the order of years.
farm::Problem third_of_years(farm::Problem p, bool driest) {
  auto& years = p.years.years;
  std::vector<std::size_t> order = first_numbers(years.size());
  const auto rain = [&](std::size_t y) {
    double sum = 0.0;
    for (const weather::Day& d : years[y].days) sum += d.rain_mm;
    return driest ? sum : -sum;
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rain(a) < rain(b); });
  order.resize(std::max<std::size_t>(1, order.size() / 3));
  std::sort(order.begin(), order.end());
  std::vector<weather::Year> kept;
  for (const std::size_t y : order) kept.push_back(years[y]);
  years = std::move(kept);
  return p;
}

/// The methods ruled out on every field, with a reason; locks on them are lifted.
farm::Problem without_methods(farm::Problem p, bool (*out)(const method::Recipe&), const char* why) {
  for (const method::Recipe& r : p.farm.book.recipes) {
    if (!out(r)) continue;
    for (farm::Field& f : p.farm.fields) {
      f.not_allowed.push_back({r.id, why});
      if (f.locked == r.id) f.locked.reset();
    }
  }
  return p;
}

/// Hired balers do not come in any year; own ones stay in the shop.
farm::Problem without_balers(farm::Problem p) {
  const farm::Calendar& season = p.farm.season;
  for (machinery::Implement& i : p.farm.implements) {
    if (i.kind != "baler") continue;
    if (i.hire)
      i.hire->comes = {{season.first, 0.0}};
    else
      i.away = {{season.first, season.date(season.days - 1), "no baler in this case"}};
  }
  return p;
}

ChangedFarm no_baler(const farm::Problem& p) {
  const auto& all = p.farm.implements;
  ChangedFarm c{"no-baler", "no baler comes", "", {}, {}, without_balers(p)};
  c.problem = without_methods(
      c.kept, [](const method::Recipe& r) { return r.bales; }, "no baler comes in this case");
  if (std::none_of(all.begin(), all.end(), [](const auto& i) { return i.kind == "baler"; }))
    c.note = "the farm has no baler";
  return c;
}

ChangedFarm half_water(const farm::Problem& p) {
  ChangedFarm c{"half-water", "half of the canal's flow", "", {}, p, {}};
  if (c.problem.farm.supply)
    c.problem.farm.supply->most_flow = CubicMetrePerDay{0.5 * p.farm.supply->most_flow.value()};
  else
    c.note = "the farm has no canal water";
  c.kept = c.problem;
  return c;
}

/// A plan made in the knowledge of it burns nothing; one made without it waits for a call that never comes.
ChangedFarm no_burn_area(const farm::Problem& p) {
  ChangedFarm c{"no-burn-area", "no burn area is left", "", {}, {}, p};
  c.problem = without_methods(
      p, [](const method::Recipe& r) { return r.burns; }, "the burn area is 0 in this case");
  if (!p.farm.burning) {
    c.note = "no burn rules are entered: nothing is burned anyway";
    return c;
  }
  if (burn::limits_of(*p.farm.burning).call_needed) {
    c.kept.farm.burning->burn_day_chance = 0.0;
    c.kept.farm.burn_calls.clear();
  } else {
    c.kept = c.problem;
  }
  return c;
}

ChangedFarm straw_doubled(const farm::Problem& p) {
  ChangedFarm c{"straw-doubled", "twice the straw price", "", {}, p, {}};
  farm::Prices& prices = c.problem.farm.prices;
  for (Money* price : {&prices.straw_per_tonne, &prices.straw_per_ha, &prices.straw_per_bale})
    *price = Money{2.0 * price->value()};
  if (p.farm.prices.straw_per_tonne.value() + p.farm.prices.straw_per_ha.value() +
          p.farm.prices.straw_per_bale.value() <=
      0.0)
    c.note = "straw brings nothing here: twice nothing is nothing";
  c.kept = c.problem;
  return c;
}

ChangedFarm years_case(const farm::Problem& p, bool driest) {
  ChangedFarm c{driest ? "dry-years" : "wet-years",
                driest ? "the driest third of the years" : "the wettest third of the years",
                "",
                {},
                third_of_years(p, driest),
                {}};
  c.kept = c.problem;
  return c;
}

struct Builder {
  const char* name;
  std::function<ChangedFarm(const farm::Problem&)> make;
};
const std::vector<Builder>& builders() {
  static const std::vector<Builder> all{{"dry-years", [](const auto& p) { return years_case(p, true); }},
                                        {"wet-years", [](const auto& p) { return years_case(p, false); }},
                                        {"no-baler", no_baler},
                                        {"half-water", half_water},
                                        {"no-burn-area", no_burn_area},
                                        {"straw-doubled", straw_doubled}};
  return all;
}

}  // namespace

std::vector<std::string> case_names() {
  std::vector<std::string> names;
  for (const Builder& b : builders()) names.push_back(b.name);
  return names;
}

ChangedFarm built_in_case(const farm::Problem& problem, const std::string& name) {
  for (const Builder& b : builders())
    if (name == b.name) return b.make(problem);
  fail("a case is one of case_names()");
}

}  // namespace aftercut::scenario
