#include "aftercut/scenario/region_farm.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/conditions.hpp"
#include "aftercut/farm/wishes.hpp"
#include "aftercut/planner/bound.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/readiness/readiness.hpp"

namespace aftercut::scenario {
namespace {

using plan::Decision;
using plan::Shares;

constexpr double s_per_day = 86400.0;
constexpr std::size_t levels = 4;                       // of fields burned that a farm offers
constexpr std::array<double, 3> flows{0.5, 0.25, 0.1};  // parts of the flow that it would take
constexpr std::size_t corners = 8;                      // of an outline on the region's map

enum class Takes { fire, canal };

bool own_steps_take(const dispatch::Table& t, const method::Recipe& recipe, Takes what) {
  return std::ranges::any_of(recipe.steps, [&](const method::Step& s) {
    const method::Operation& op = dispatch::operation_of(t, s);
    return what == Takes::fire ? op.burning : op.water == method::Water::fill;
  });
}

/// Itself, or what takes over when it falls back.
bool takes(const dispatch::Table& t, int recipe, Takes what) {
  if (recipe == plan::none) return false;
  const method::Recipe& r = t.problem->farm.book.recipes[static_cast<std::size_t>(recipe)];
  if (own_steps_take(t, r, what)) return true;
  return r.fall_back && own_steps_take(t, dispatch::recipe_named(t, r.fall_back->method), what);
}

/// The most used on a day, in a season, at a time, of any year.
Shares most_used(const std::vector<plan::YearRun>& runs, const farm::Farm& farm) {
  Shares most{};
  for (const plan::YearRun& run : runs) {
    std::map<int, double> burned, let_in;
    for (const plan::Work& w : run.work)
      if (!w.stands_by && farm.book.operations[static_cast<std::size_t>(w.operation)].burning)
        burned[w.day] += w.area_ha;
    for (const plan::WaterIn& w : run.water) let_in[w.day] += w.m3 / s_per_day;
    double season = 0.0;
    for (const auto& [day, ha] : burned) {
      most[plan::burn_day] = std::max(most[plan::burn_day], ha);
      season += ha;
    }
    most[plan::burn_season] = std::max(most[plan::burn_season], season);
    for (const auto& [day, flow] : let_in) most[plan::canal_flow] = std::max(most[plan::canal_flow], flow);
  }
  return most;
}

std::vector<plan::YearRun> played(const dispatch::Table& table, const Decision& decision) {
  std::vector<plan::YearRun> runs;
  for (const std::size_t y : first_numbers(table.drivers.size()))
    runs.push_back(dispatch::run(table, decision, y));
  return runs;
}

double mean_cents(const std::vector<plan::YearRun>& runs) {
  double sum = 0.0;
  for (const plan::YearRun& run : runs) sum += static_cast<double>(dispatch::cost_of(run));
  return sum / static_cast<double>(runs.size());
}

/// A field's cheapest method alone that takes neither fire nor canal water.
struct Plainer {
  int method = plan::none;
  double loses_per_ha = 0.0;
};

Plainer plainer_method(const dispatch::Table& t, std::size_t f, int now,
                       const std::vector<std::size_t>& years) {
  std::vector<Decision> trials;
  Decision alone;
  alone.method.assign(t.problem->farm.fields.size(), plan::none);
  alone.autumn_order = alone.spring_order = {static_cast<int>(f)};
  std::vector<int> methods{now};
  const auto possible = dispatch::possible_recipes(t);
  for (const int m : possible[f])
    if (!takes(t, m, Takes::fire) && !takes(t, m, Takes::canal)) methods.push_back(m);
  for (const int m : methods) {
    trials.push_back(alone);
    trials.back().method[f] = m;
  }
  const auto costs = planner::costs_of(t, trials, years, 1, {.only_field = static_cast<int>(f)});
  if (methods.size() == 1) return {now, std::numeric_limits<double>::infinity()};
  const auto least = std::min_element(costs.begin() + 1, costs.end());
  return {methods[static_cast<std::size_t>(least - costs.begin())],
          static_cast<double>(*least - costs.front()) / t.problem->farm.fields[f].area.value()};
}

/// Fields that take it with their plainer methods, those that lose least first.
std::vector<std::pair<std::size_t, int>> turns(const dispatch::Table& t, const Decision& from, Takes what,
                                               const std::vector<std::size_t>& years) {
  std::vector<std::pair<std::size_t, Plainer>> found;
  for (std::size_t f = 0; f < from.method.size(); ++f)
    if (takes(t, from.method[f], what)) found.emplace_back(f, plainer_method(t, f, from.method[f], years));
  std::ranges::stable_sort(found, {}, [](const auto& turn) { return turn.second.loses_per_ha; });
  std::vector<std::pair<std::size_t, int>> out;
  for (const auto& [f, plainer] : found) out.emplace_back(f, plainer.method);
  return out;
}

/// The first so many of them turned.
Decision turned(Decision from, const std::vector<std::pair<std::size_t, int>>& turns, std::size_t n) {
  for (std::size_t k = 0; k < n; ++k) from.method[turns[k].first] = turns[k].second;
  return from;
}

/// None, some and all of the fields that burn turned to plainer methods.
std::vector<Decision> with_fewer_burned(const dispatch::Table& t, const Decision& from,
                                        const std::vector<std::size_t>& years) {
  const auto all = turns(t, from, Takes::fire, years);
  std::vector<Decision> out;
  std::size_t last = all.size() + 1;
  for (std::size_t k = 0; k < levels; ++k) {
    const std::size_t n = all.size() * k / (levels - 1);
    if (n != last) out.push_back(turned(from, all, n));
    last = n;
  }
  return out;
}

void offer(FarmOffers& out, const dispatch::Table& table, const Decision& decision) {
  const auto runs = played(table, decision);
  out.decisions.push_back(decision);
  out.offers.push_back({mean_cents(runs), most_used(runs, table.problem->farm)});
}

/// The same with less flow, so that fields fill more slowly, and with canal fields turned to plainer methods.
void offer_less_flow(FarmOffers& out, const dispatch::Table& table, const Decision& decision,
                     const std::vector<std::size_t>& years) {
  const double most = out.offers.back().needs[plan::canal_flow];
  if (most <= 0.0) return;
  constexpr double none = std::numeric_limits<double>::infinity();
  for (const double part : flows) {
    const farm::Problem less = with_shares(*table.problem, {none, none, part * most});
    offer(out, dispatch::make_table(less, table.seed), decision);
  }
  const auto all = turns(table, decision, Takes::canal, years);
  if (!all.empty()) offer(out, table, turned(decision, all, all.size()));
}

geo::Path few_corners(const geo::Shape& shape) {
  const geo::Path* most = nullptr;
  for (const geo::Polygon& p : shape.polygons)
    if (most == nullptr || p.outer.size() > most->size()) most = &p.outer;
  geo::Path few;
  if (most == nullptr || most->empty()) return few;
  const std::size_t n = most->size() - 1, kept = std::min(n, corners);
  for (std::size_t k = 0; k < kept; ++k) few.push_back((*most)[k * n / kept]);
  few.push_back(few.front());
  return few;
}

plan::RegionField field_of(const farm::Farm& farm, std::size_t f, int method,
                           const std::vector<plan::YearRun>& runs, const std::vector<std::size_t>& shown) {
  const farm::Field& field = farm.fields[f];
  plan::RegionField out{.id = field.id.value, .name = field.name, .outline = few_corners(field.shape)};
  if (method != plan::none) {
    const method::Recipe& recipe = farm.book.recipes[static_cast<std::size_t>(method)];
    out.method = recipe.id.value;
    out.method_name = recipe.name;
  }
  out.area_ha = field.area.value();
  out.wants_seedbed = farm::seedbed_due(field);
  double cents = 0.0;
  const double tonnes = out.area_ha / 1000.0 / static_cast<double>(runs.size());
  for (const plan::YearRun& run : runs) {
    const plan::FieldRun& r = run.fields[f];
    cents += static_cast<double>(r.cost.out_of_pocket());
    out.baled_t += r.baled_kg_per_ha * tonnes;
    out.burned_t += r.burned_kg_per_ha * tonnes;
    out.left_t += r.straw_left_kg_per_ha * tonnes;
  }
  out.cost_cents = to_cents(cents / static_cast<double>(runs.size()) / 100.0);
  std::vector<plan::FieldRun> in_shown;
  for (const std::size_t y : shown) in_shown.push_back(runs[y].fields[f]);
  const readiness::FieldReadiness ready = readiness::of_field(field, in_shown);
  out.chance = ready.chance;
  if (ready.ready.p50) out.ready_p50 = farm.season.date(*ready.ready.p50);
  return out;
}

std::int64_t bound_of(const farm::Problem& problem, std::uint64_t seed, double plan_cents, int rounds) {
  const dispatch::Table table = dispatch::make_table(problem, seed);
  const auto n = static_cast<double>(table.drivers.size());
  const planner::BoundModel model = planner::make_bound_model(table, 1);
  const planner::Bound bound = planner::lower_bound(
      {.model = &model, .plan_cents = plan_cents * n, .rounds = rounds, .threads = 1, .progress = {}});
  return static_cast<std::int64_t>(std::floor(bound.cents / n));
}

}  // namespace

FarmOffers offers_of(const farm::Problem& problem,
                     const std::array<std::optional<double>, plan::shared_kinds>& limits, std::uint64_t seed,
                     int changes) {
  const dispatch::Table table = dispatch::make_table(problem, seed);
  const planner::Folds folds = planner::fold(table.drivers.size());
  const Decision base = planner::search({.table = &table,
                                         .years = folds.search,
                                         .seed = seed,
                                         .threads = 1,
                                         .evaluations = changes,
                                         .progress = {}})
                            .decision;
  const bool fire = limits[plan::burn_day] || limits[plan::burn_season];
  FarmOffers out;
  for (const Decision& d : fire ? with_fewer_burned(table, base, folds.search) : std::vector{base}) {
    offer(out, table, d);
    if (limits[plan::canal_flow]) offer_less_flow(out, table, d, folds.search);
  }
  return out;
}

farm::Problem with_shares(farm::Problem problem, const Shares& shares) {
  farm::Farm& farm = problem.farm;
  if (farm.burning) {
    const burn::Limits own = burn::limits_of(*farm.burning);
    const auto lower = [&](const char* name, std::optional<double> now, double share) {
      for (burn::Rule& rule : farm.burning->rules)
        if (rule.name == name && std::isfinite(share) && (!now || share < *now)) {
          rule.value = fmt::format("{:.6f}", share);
          rule.unit = "ha";
        }
    };
    lower("daily_area", own.daily_area_ha, shares[plan::burn_day]);
    lower("season_area", own.season_area_ha, shares[plan::burn_season]);
  }
  if (farm.supply)
    farm.supply->most_flow =
        CubicMetrePerDay{std::min(farm.supply->most_flow.value(), shares[plan::canal_flow] * s_per_day)};
  return problem;
}

plan::RegionFarm plan_farm(const farm::Problem& problem, const FarmToPlan& how) {
  const farm::Problem shared = with_shares(problem, how.share);
  const dispatch::Table table = dispatch::make_table(shared, how.seed);
  const planner::Folds folds = planner::fold(table.drivers.size());
  plan::RegionFarm out;
  out.name = problem.farm.name;
  out.share = how.share;
  out.decision = planner::search({.table = &table,
                                  .years = folds.search,
                                  .seed = how.seed,
                                  .threads = 1,
                                  .evaluations = how.changes,
                                  .progress = {},
                                  .start = how.start})
                     .decision;
  const auto runs = played(table, out.decision);
  out.used = most_used(runs, problem.farm);
  const double cents = mean_cents(runs);
  out.cost_cents = to_cents(cents / 100.0);
  for (std::size_t f = 0; f < problem.farm.fields.size(); ++f) {
    out.fields.push_back(field_of(problem.farm, f, out.decision.method[f], runs, folds.shown));
    out.area_ha += out.fields.back().area_ha;
  }
  out.bound_cents = bound_of(problem, how.seed, cents, how.bound_rounds);
  return out;
}

}  // namespace aftercut::scenario
