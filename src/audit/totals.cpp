#include "totals.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/numbers.hpp"
#include "air.hpp"
#include "bales.hpp"
#include "money.hpp"
#include "next_crop.hpp"
#include "year_columns.hpp"

namespace aftercut::audit {
namespace {

// plan.json prints chances with 4 decimals, masses with 1, hours, litres and m3 with 2: half of the last
// digit, and a little.
constexpr double chance_tolerance = 5.001e-5;
constexpr double printed_mass_tolerance = 0.0501;
constexpr double hour_tolerance = 0.00501;
constexpr double volume_tolerance = 0.00501;
constexpr std::int64_t cent_tolerance = 1;
constexpr int never = std::numeric_limits<int>::max();

using Runs = std::vector<plan::FieldRun>;  // of one field, one a year

/// The day by which a share p of the years was ready; a day that did occur. Empty: not by the cut-off.
std::optional<int> ready_by(std::vector<int> days, double p) {
  std::sort(days.begin(), days.end());
  std::size_t rank = 1;  // the least rank that makes up the share
  while (rank < days.size() && static_cast<double>(rank) + 1e-9 < p * static_cast<double>(days.size()))
    ++rank;
  const int day = days[rank - 1];
  return day == never ? std::nullopt : std::optional<int>{day};
}

Findings check_ready(const Place& place, const farm::Field& field, const plan::MethodOutcome& said,
                     const Runs& shown) {
  Findings f;
  const bool due = field.next.kind != farm::NextUseKind::fallow;
  std::vector<int> days;
  std::size_t in_time = 0;
  for (const auto& run : shown) {
    const bool came = run.status == plan::Status::ready || run.status == plan::Status::late;
    days.push_back(came ? run.ready_day : never);
    in_time += run.status == plan::Status::ready ? 1 : 0;
  }
  const double chance = due ? static_cast<double>(in_time) / static_cast<double>(shown.size()) : 1.0;
  f.expect_near(said.chance_ready, chance, chance_tolerance, "wrong chance", place);
  const auto text = [&](std::optional<int> day) {
    return day ? iso(place.farm->season.date(*day)) : std::string("not by the cut-off");
  };
  const auto same = [&](std::optional<int> found, double p, const char* name) {
    const std::optional<int> day = due ? ready_by(days, p) : std::nullopt;
    Place where = place;
    where.what = name;
    f.expect(found == day, "wrong quantile", where, [&] { return Texts{text(found), text(day)}; });
  };
  same(said.ready.p10, 0.1, "ready p10");
  same(said.ready.p50, 0.5, "ready p50");
  same(said.ready.p90, 0.9, "ready p90");
  return f;
}

Findings check_straw(const Place& place, const plan::MethodOutcome& said, const Runs& shown) {
  Findings f;
  std::vector<double> left;
  for (const auto& run : shown) left.push_back(run.straw_left_kg_per_ha);
  const auto near = [&](double found, double p, const char* name) {
    Place where = place;
    where.what = name;
    f.expect_near(found, between(left, p), printed_mass_tolerance, "wrong quantile", where);
  };
  near(said.straw_left_kg_per_ha.p10, 0.1, "straw left p10");
  near(said.straw_left_kg_per_ha.p50, 0.5, "straw left p50");
  near(said.straw_left_kg_per_ha.p90, 0.9, "straw left p90");
  return f;
}

std::int64_t mean_cents(std::int64_t sum, std::size_t n) {
  return std::llround(static_cast<double>(sum) / static_cast<double>(n));
}

plan::CostParts mean_of(const plan::CostParts& sum, std::size_t n) {
  plan::CostParts m;
  for (const plan::CostPart& part : plan::cost_parts) m.*part.of = mean_cents(sum.*part.of, n);
  return m;
}

Findings check_means(const Place& place, const plan::MethodOutcome& said, const Runs& all,
                     const plan::CostParts& sum) {
  Findings f;
  double machine = 0.0, labour = 0.0, fuel = 0.0, water = 0.0;
  const auto n = static_cast<double>(all.size());
  for (const auto& run : all) {
    machine += static_cast<double>(run.machine_min) / 60.0 / n;
    labour += static_cast<double>(run.labour_min) / 60.0 / n;
    fuel += run.fuel_l / n;
    water += run.water_m3 / n;
  }
  f += compare_costs(place, said.mean_cost, mean_of(sum, all.size()), cent_tolerance);
  f.expect_near(said.machine_h, machine, hour_tolerance, "hours balance", place);
  f.expect_near(said.labour_h, labour, hour_tolerance, "hours balance", place);
  f.expect_near(said.fuel_l, fuel, volume_tolerance, "fuel balance", place);
  f.expect_near(said.water_m3, water, volume_tolerance, "water balance", place);
  return f;
}

Findings check_objective(const plan::Plan& p, const Replays& replays) {
  Findings f;
  std::int64_t pocket = 0, full = 0;
  for (const auto& year : replays.stated)
    for (const plan::CostParts& cost : year) {
      pocket += cost.out_of_pocket();
      full += cost.full();
    }
  const auto same = [&](std::int64_t found, std::int64_t sum, const char* name) {
    const std::int64_t mean = mean_cents(sum, replays.fields.size());
    f.expect(std::llabs(found - mean) <= cent_tolerance, "wrong objective", Place{nullptr, -1, -1, -1, name},
             [&] {
               return Texts{fmt::format("{} cents", found), fmt::format("{} cents", mean)};
             });
  };
  same(p.cost_cents, pocket, "out of pocket");
  same(p.full_cost_cents, full, "full cost");
  if (p.bound_cents)
    f.expect(*p.bound_cents <= p.cost_cents, "bound above the plan", Place{nullptr, -1, -1, -1, "bound"},
             [&] {
               return Texts{fmt::format("{} cents", *p.bound_cents),
                            fmt::format("at most {} cents", p.cost_cents)};
             });
  return f;
}

/// Bales, loads and twine of every method, the chosen one or not, that the plan tells of a field.
Findings check_told(const farm::Farm& farm, const plan::Plan& p) {
  Findings f;
  for (std::size_t k = 0; k < farm.fields.size(); ++k)
    for (const plan::MethodOutcome& said : p.fields[k].methods) {
      if (!said.possible || said.method < 0 || said.method >= static_cast<int>(farm.book.recipes.size()))
        continue;
      const method::Recipe& recipe = farm.book.recipes[static_cast<std::size_t>(said.method)];
      f += check_told_bales({&farm, -1, -1, static_cast<int>(k), recipe.id.value}, farm, recipe, said);
    }
  return f;
}

}  // namespace

Findings check_totals(const Facts& facts, const plan::Plan& p, const Replays& replays) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  for (std::size_t k = 0; k < farm.fields.size(); ++k) {
    const int chosen = p.decision.method[k];
    if (chosen == plan::none || p.fields[k].methods.size() <= static_cast<std::size_t>(chosen)) continue;
    const plan::MethodOutcome& said = p.fields[k].methods[static_cast<std::size_t>(chosen)];
    Runs all, shown;
    plan::CostParts stated;
    std::vector<CropYear> crops;
    for (std::size_t y = 0; y < replays.years.size(); ++y) {
      all.push_back(replays.fields[y][k]);
      stated = stated + replays.stated[y][k];
      const bool is_shown =
          std::find(p.shown_years.begin(), p.shown_years.end(), replays.years[y]) != p.shown_years.end();
      if (is_shown) shown.push_back(all.back());
      crops.push_back({all.back(), replays.untouched_on_top[y][k], is_shown});
    }
    const Place place{&farm, -1, -1, static_cast<int>(k),
                      farm.book.recipes[static_cast<std::size_t>(chosen)].id.value};
    f += check_means(place, said, all, stated);
    f += check_environment(facts, place, static_cast<int>(k), said.environment, crops);
    f += check_air(facts, place, static_cast<int>(k), said, crops);
    if (shown.empty()) continue;
    f += check_ready(place, farm.fields[k], said, shown);
    f += check_straw(place, said, shown);
    if (said.bales) f += check_bales(place, farm, farm.fields[k], *said.bales, shown);
  }
  f += check_told(farm, p);
  f += check_objective(p, replays);
  return f;
}

}  // namespace aftercut::audit
