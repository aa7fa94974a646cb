#include "aftercut/planner/bound_proof.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/parallel.hpp"
#include "aftercut/core/require.hpp"
#include "ways_through.hpp"

namespace aftercut::planner {
namespace {

/// [field][recipe][year] under these prices, also of methods that cannot be the cheapest; a barred method has
/// no years.
using Floors = std::vector<std::vector<std::vector<double>>>;

Floors floors_of(const BoundModel& m, const std::vector<DayPrices>& prices, int threads) {
  const std::size_t n = m.openings.size(), years = m.years.size();
  Floors floors(n);
  for (std::size_t f = 0; f < n; ++f)
    for (const auto& barred_or_not : m.openings[f].front())
      floors[f].emplace_back(barred_or_not ? years : 0, 0.0);
  for_each_index(n * years, threads, [&](std::size_t i) {
    const std::size_t f = i / years, y = i % years;
    FieldPrices field{m, f, prices[y]};
    for (std::size_t r = 0; r < floors[f].size(); ++r)
      if (const auto& o = m.openings[f][y][r])
        floors[f][r][y] = least_of(m, field, f, *o, m.ways[f][y][r]).cents;
  });
  return floors;
}

plan::FieldFloor field_floor(const std::vector<std::vector<double>>& floors, int planned) {
  plan::FieldFloor field;
  double least = infinite;
  for (std::size_t r = 0; r < floors.size(); ++r) {
    if (floors[r].empty()) continue;
    plan::MethodFloor floor{.method = static_cast<int>(r), .cents = 0.0, .by_year = floors[r]};
    for (const double cents : floors[r]) floor.cents += cents;
    if (floor.cents < least) {
      least = floor.cents;
      field.method = floor.method;
    }
    field.methods.push_back(std::move(floor));
  }
  for (plan::MethodFloor& floor : field.methods)
    if (floor.method != field.method && floor.method != planned) floor.by_year.clear();
  return field;
}

struct Named {
  plan::Resource resource;
  int index;
};
Named named(const Resources& r, std::size_t resource) {
  const auto at = [&](std::size_t first) { return static_cast<int>(resource - first); };
  if (resource < r.tractors) return {plan::Resource::tractor, at(0)};
  if (resource < r.tractors + r.implements) return {plan::Resource::implement, at(r.tractors)};
  return {plan::Resource::person, at(r.tractors + r.implements)};
}

std::size_t place_of(const Resources& r, const plan::MinutePrice& p) {
  switch (p.resource) {
    case plan::Resource::tractor:
      return r.tractor(p.index);
    case plan::Resource::implement:
      return r.implement(p.index);
    case plan::Resource::person:
      return r.person(p.index);
  }
  fail("unknown kind of resource");
}

plan::BoundYear bound_year(const BoundModel& m, std::size_t y, const DayPrices& prices) {
  const Resources& r = m.resources;
  plan::BoundYear year{
      .year = m.table->drivers[m.years[y]].year, .paid_back = paid_back(r, prices), .prices = {}};
  for (std::size_t i = 0; i < prices.size(); ++i) {
    if (prices[i] <= 0.0) continue;
    const Named who = named(r, i / r.days);
    year.prices.push_back({who.resource, who.index, static_cast<int>(i % r.days), prices[i]});
  }
  return year;
}

std::int64_t cents_without_prices(const BoundModel& m, int threads) {
  const std::vector<DayPrices> nothing(m.years.size(), DayPrices(m.resources.minutes.size(), 0.0));
  return static_cast<std::int64_t>(rounded_down(evaluate(m, nothing, threads).cents));
}

}  // namespace

plan::BoundProof proof_of(const BoundModel& m, const std::vector<DayPrices>& prices,
                          const std::vector<int>& planned, int rounds, int threads) {
  require(planned.size() == m.openings.size(), "every field of the bound has a planned method or none");
  require_prices(m, prices);
  const Floors floors = floors_of(m, prices, threads);
  plan::BoundProof proof{.rounds = rounds, .without_prices = cents_without_prices(m, threads)};
  double sum = 0.0;
  for (std::size_t f = 0; f < floors.size(); ++f) {
    proof.fields.push_back(field_floor(floors[f], planned[f]));
    const plan::FieldFloor& field = proof.fields.back();
    const auto best =
        std::ranges::find(field.methods, field.method, [](const plan::MethodFloor& r) { return r.method; });
    sum += best != field.methods.end() ? best->cents
                                       : m.outcomes[f].never_cents * static_cast<double>(m.years.size());
  }
  for (std::size_t y = 0; y < prices.size(); ++y) {
    proof.years.push_back(bound_year(m, y, prices[y]));
    sum -= proof.years.back().paid_back;
  }
  proof.cents = static_cast<std::int64_t>(rounded_down(sum));
  proof.cents_a_year = static_cast<std::int64_t>(
      std::floor(static_cast<double>(proof.cents) / static_cast<double>(m.years.size())));
  return proof;
}

std::vector<DayPrices> prices_of(const BoundModel& m, const plan::BoundProof& proof) {
  require(proof.years.size() == m.years.size(), "a proof of the bound has its years");
  std::vector<DayPrices> prices;
  for (const plan::BoundYear& year : proof.years) {
    DayPrices& day_prices = prices.emplace_back(m.resources.minutes.size(), 0.0);
    for (const plan::MinutePrice& p : year.prices)
      day_prices.at(place_of(m.resources, p) * m.resources.days + static_cast<std::size_t>(p.day)) = p.cents;
  }
  return prices;
}

}  // namespace aftercut::planner
