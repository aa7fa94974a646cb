#include "aftercut/scenario/trade_offs.hpp"

#include <algorithm>

#include "aftercut/planner/search.hpp"
#include "aftercut/scenario/what_if.hpp"
#include "aftercut/scenario/whole_farm.hpp"

namespace aftercut::scenario {
namespace {

/// What a method does with the straw, as far as prices can tell methods apart.
enum class Fate { stays, baled, burned, flooded };

Fate fate_of(const method::Book& book, const method::Recipe& r) {
  if (r.burns) return Fate::burned;
  if (r.bales) return Fate::baled;
  const bool filled = std::ranges::any_of(r.steps, [&](const method::Step& s) {
    return book.operations[static_cast<std::size_t>(s.operation)].water == method::Water::fill;
  });
  return filled ? Fate::flooded : Fate::stays;
}

/// Mean of what the possible methods of this fate give off, over fields and methods [kg CO2e/ha]; nothing
/// where none is possible.
std::optional<double> given_off(const farm::Farm& farm, const plan::Plan& base, Fate fate) {
  double sum = 0.0, count = 0.0;
  for (const plan::FieldPlan& f : base.fields)
    for (std::size_t r = 0; r < f.methods.size(); ++r) {
      if (!f.methods[r].possible || fate_of(farm.book, farm.book.recipes[r]) != fate) continue;
      sum += f.methods[r].environment.co2e.mean;
      count += 1.0;
    }
  return count > 0.0 ? std::optional{sum / count} : std::nullopt;
}

double co2e_of(const farm::Farm& farm, const plan::Plan& p) {
  double kg = 0.0;
  for (std::size_t f = 0; f < p.fields.size(); ++f) {
    const int m = p.fields[f].chosen.method;
    if (m == plan::none) continue;
    kg +=
        p.fields[f].methods[static_cast<std::size_t>(m)].environment.co2e.mean * farm.fields[f].area.value();
  }
  return kg / 1000.0;
}

Money plus(Money a, double b) { return Money{a.value() + b}; }

}  // namespace

std::vector<plan::WeighedPlan> sweep_of_weights() {
  std::vector<plan::WeighedPlan> all;
  const auto add = [&](const char* name, plan::Weights w) {
    plan::WeighedPlan p;
    p.name = name;
    p.weights = w;
    all.push_back(std::move(p));
  };
  add("base", {});
  add("straw-5", {.straw_per_t = 5.0});
  add("straw-12", {.straw_per_t = 12.0});
  add("straw-30", {.straw_per_t = 30.0});
  add("straw-80", {.straw_per_t = 80.0});
  add("ready-1.5", {.late_times = 1.5});
  add("ready-2.5", {.late_times = 2.5});
  add("ready-5", {.late_times = 5.0});
  add("ready-12", {.late_times = 12.0});
  add("air-15", {.co2e_per_t = 15.0});
  add("air-40", {.co2e_per_t = 40.0});
  add("air-100", {.co2e_per_t = 100.0});
  add("air-250", {.co2e_per_t = 250.0});
  add("straw-12-ready-2.5", {.straw_per_t = 12.0, .late_times = 2.5});
  add("air-40-ready-2.5", {.late_times = 2.5, .co2e_per_t = 40.0});
  add("straw-30-air-100", {.straw_per_t = 30.0, .co2e_per_t = 100.0});
  return all;
}

farm::Problem weighed(const farm::Problem& problem, const plan::Weights& w, const plan::Plan& base) {
  farm::Problem p = problem;
  farm::Farm& farm = p.farm;
  farm.prices.straw_per_tonne = plus(farm.prices.straw_per_tonne, w.straw_per_t);
  farm.prices.unplanted_per_ha = Money{w.late_times * farm.prices.unplanted_per_ha.value()};
  if (farm.target.late_per_ha_day)
    farm.target.late_per_ha_day = Money{w.late_times * farm.target.late_per_ha_day->value()};
  for (farm::Field& f : farm.fields)
    for (farm::LateNode& node : f.next.late_curve) node.loss_kg_per_ha *= w.late_times;
  const auto stays = given_off(problem.farm, base, Fate::stays);
  const auto dearer = [&](Fate fate) {
    const auto off = given_off(problem.farm, base, fate);
    return off && stays ? w.co2e_per_t * (*off - *stays) / 1000.0 : 0.0;
  };
  farm.prices.straw_per_ha = plus(farm.prices.straw_per_ha, -dearer(Fate::baled));
  farm.prices.burn_fee_per_ha = plus(farm.prices.burn_fee_per_ha, dearer(Fate::burned));
  if (farm.supply) farm.supply->per_ha_once = plus(farm.supply->per_ha_once, dearer(Fate::flooded));
  return p;
}

bool dominates(const plan::WeighedPlan& a, const plan::WeighedPlan& b) {
  const auto &x = a.figures, &y = b.figures;
  const bool no_worse =
      x.cost_cents <= y.cost_cents && x.chance >= y.chance && a.co2e_t <= b.co2e_t && x.baled_t >= y.baled_t;
  return no_worse &&
         (x.cost_cents < y.cost_cents || x.chance > y.chance || a.co2e_t < b.co2e_t || x.baled_t > y.baled_t);
}

namespace {

/// The dominated ones out, but for the base; the base first, then by cost.
void keep_undominated(plan::TradeOffs& t) {
  for (plan::WeighedPlan& p : t.plans)
    p.dominated = std::ranges::any_of(t.plans, [&](const auto& q) { return dominates(q, p); });
  const auto all = t.plans.size();
  std::erase_if(t.plans, [](const auto& p) { return p.dominated && p.name != "base"; });
  t.dropped = static_cast<int>(all - t.plans.size());
  std::stable_sort(t.plans.begin() + 1, t.plans.end(),
                   [](const auto& a, const auto& b) { return a.figures.cost_cents < b.figures.cost_cents; });
}

plan::Decision found_with(const farm::Problem& seen, const SearchOptions& o) {
  const dispatch::Table table = dispatch::make_table(seen, o.seed);
  return planner::search({.table = &table,
                          .years = planner::fold(seen.years.years.size()).search,
                          .seed = o.seed,
                          .threads = o.threads,
                          .evaluations = o.evaluations,
                          .progress = {}})
      .decision;
}

/// The plan as a whole, at the farm's own prices.
void play_weighed(plan::WeighedPlan& p, const farm::Problem& problem, const SearchOptions& o) {
  p.planned = make_plan(problem, o);
  p.figures = whole_farm(problem.farm, p.planned);
  p.co2e_t = co2e_of(problem.farm, p.planned.plan);
}

}  // namespace

plan::TradeOffs trade_offs(const farm::Problem& problem, const SearchOptions& options) {
  plan::TradeOffs out;
  auto sweep = sweep_of_weights();
  const auto n = static_cast<double>(sweep.size());
  for (plan::WeighedPlan& p : sweep) {
    SearchOptions o = options;
    o.progress = [&, done = out.searched](double x) {
      if (options.progress) options.progress((done + 0.5 + 0.5 * x) / n);
    };
    ++out.searched;
    if (p.weights != plan::Weights{})
      o.decision = found_with(weighed(problem, p.weights, out.plans.front().planned.plan), options);
    const bool known = !out.plans.empty() && std::ranges::any_of(out.plans, [&](const auto& q) {
      return q.planned.plan.decision == o.decision;
    });
    out.same += known ? 1 : 0;
    if (known) continue;
    play_weighed(p, problem, o);
    out.plans.push_back(std::move(p));
  }
  keep_undominated(out);
  if (options.progress) options.progress(1.0);
  return out;
}

}  // namespace aftercut::scenario
