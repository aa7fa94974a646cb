#include "aftercut/scenario/base_plan.hpp"

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/journal/doubts.hpp"
#include "aftercut/planner/bound_proof.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/scenario/again.hpp"
#include "aftercut/scenario/cash.hpp"
#include "aftercut/scenario/cautions.hpp"
#include "aftercut/scenario/dates_to_keep.hpp"
#include "aftercut/scenario/days_moved.hpp"
#include "aftercut/scenario/fall_backs.hpp"
#include "aftercut/scenario/jobs.hpp"
#include "aftercut/scenario/next_best.hpp"
#include "aftercut/scenario/one_more.hpp"
#include "aftercut/scenario/outcomes.hpp"
#include "aftercut/scenario/risk.hpp"
#include "aftercut/scenario/waiting.hpp"
#include "aftercut/scenario/whole_farm.hpp"
#include "aftercut/scenario/winter.hpp"
#include "aftercut/scenario/words.hpp"

namespace aftercut::scenario {
namespace {

constexpr int days_a_week = 7;

std::vector<plan::YearRun> play_all(const dispatch::Table& table, const plan::Decision& decision,
                                    int threads) {
  std::vector<plan::YearRun> runs(table.drivers.size());
  for_each_index(runs.size(), threads, [&](std::size_t y) {
    runs[y] = dispatch::run(
        table, decision, y,
        {.keep_workable = true, .keep_next_crop = true, .keep_bills = true, .keep_winter = true});
  });
  return runs;
}

plan::Chosen chosen_of(const farm::Farm& farm, std::size_t f, int method) {
  const farm::Field& field = farm.fields[f];
  plan::Chosen c{
      .method = method, .lay = field.lay, .cut_height_cm = field.cut_height_cm, .lay_fixed = field.cut};
  if (!field.cut && method != plan::none) {
    const auto& setting = farm.book.recipes[static_cast<std::size_t>(method)].harvest;
    c.lay = setting.lay;
    c.cut_height_cm = setting.cut_height_cm;
  }
  c.chopper = c.lay == straw::Lay::chopped;
  c.locked = field.locked.has_value();
  return c;
}

/// Share of the years in which the combine leaves ruts on a field that is still to be cut.
double rut_chance(const dispatch::Table& table, std::size_t f, int method) {
  const farm::Field& field = table.problem->farm.fields[f];
  if (field.cut || field.ground.state == farm::GroundState::rutted) return 0.0;
  double years = 0.0;
  for (std::size_t y = 0; y < table.drivers.size(); ++y)
    years += dispatch::first_morning(table, f, y, method).rutted() ? 1.0 : 0.0;
  return years / static_cast<double>(table.drivers.size());
}

/// What was chosen on a field against the next best, and what waiting takes.
void add_reasons(plan::Plan& plan, const farm::Farm& farm, const Outcomes& tried, const OutcomeInput& in,
                 const std::vector<int>& cheapest_alone) {
  const auto starts = last_safe_starts(in, tried.methods);
  const auto weeks = cost_of_a_week(in);
  std::vector<int> next(plan.fields.size(), plan::none);
  for (std::size_t f = 0; f < next.size(); ++f) {
    plan::Chosen& chosen = plan.fields[f].chosen;
    chosen.next_best = next_best(farm, tried, f, chosen.method);
    if (chosen.next_best) next[f] = chosen.next_best->method;
  }
  const auto earlier = saves_if_cut_earlier(in, next);
  for (std::size_t f = 0; f < next.size(); ++f) {
    plan::FieldPlan& p = plan.fields[f];
    for (std::size_t r = 0; r < p.methods.size(); ++r) p.methods[r].last_safe_start = starts[f][r];
    p.chosen.wait_a_week = weeks[f];
    if (p.chosen.next_best) {
      plan::NextBest& n = *p.chosen.next_best;
      p.chosen.toss_up = toss_up(farm, n, f);
      n.decides = deciders(farm, tried, f, p.chosen.method, n);
      n.saves_cut_earlier = earlier[f].saves;
      n.earlier_days = earlier[f].days;
    }
    p.chosen.because = reasons(farm, p, f, cheapest_alone[f]);
  }
}

void add_fields(plan::Plan& plan, const dispatch::Table& table, const planner::Found& found,
                const OutcomeInput& in) {
  const farm::Farm& farm = table.problem->farm;
  const Outcomes tried = outcomes(in);
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    plan::FieldPlan p;
    p.chosen = chosen_of(farm, f, found.decision.method[f]);
    p.load_kg_per_ha = farm.fields[f].straw_load.value();
    p.standing_kg_per_ha = p.load_kg_per_ha * straw::stubble_share(p.chosen.cut_height_cm).value();
    p.loose_kg_per_ha = p.load_kg_per_ha - p.standing_kg_per_ha;
    p.methods = tried.methods[f];
    p.rut_chance = rut_chance(table, f, found.decision.method[f]);
    plan.fields.push_back(std::move(p));
  }
  add_reasons(plan, farm, tried, in, found.cheapest_alone);
}

/// The year whose cost stands in the middle: a fair picture of the work.
std::size_t middle_year(const std::vector<plan::YearRun>& runs) {
  std::vector<std::size_t> order = first_numbers(runs.size());
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return dispatch::cost_of(runs[a]) < dispatch::cost_of(runs[b]);
  });
  return order[(order.size() - 1) / 2];
}

void add_use(plan::Plan& plan, const dispatch::Table& t, const std::vector<plan::YearRun>& runs) {
  const farm::Farm& farm = t.problem->farm;
  const int weeks = (farm.season.days + days_a_week - 1) / days_a_week;
  const auto blank = [&](const std::string& id, const char* kind, auto minutes_on) {
    plan::ResourceUse use{.id = id, .kind = kind, .weeks = {}};
    for (int w = 0; w < weeks; ++w) {
      plan::WeekUse week{.first_day = w * days_a_week};
      for (int d = w * days_a_week; d < std::min((w + 1) * days_a_week, farm.season.days); ++d)
        week.available_h += minutes_on(static_cast<std::size_t>(d)) / 60.0;
      use.weeks.push_back(week);
    }
    plan.resources.push_back(use);
  };
  const auto if_here = [&](const std::vector<char>& here) {
    return [&t, &here](std::size_t d) { return here[d] ? static_cast<double>(t.longest_min[d]) : 0.0; };
  };
  for (std::size_t i = 0; i < farm.tractors.size(); ++i)
    blank(farm.tractors[i].id.value, "tractor", if_here(t.tractor_here[i]));
  for (std::size_t i = 0; i < farm.implements.size(); ++i)
    blank(farm.implements[i].id.value, "implement", if_here(t.implement_here[i]));
  for (std::size_t i = 0; i < farm.operators.size(); ++i)
    blank(farm.operators[i].id.value, "operator",
          [&, i](std::size_t d) { return static_cast<double>(t.operator_min[i][d]); });
  const auto use = [&](std::size_t resource, const plan::Work& w) {
    plan.resources[resource].weeks[static_cast<std::size_t>(w.day / days_a_week)].used_h +=
        (w.end_min - w.start_min) / 60.0 / static_cast<double>(runs.size());
  };
  const std::size_t implements = farm.tractors.size(), operators = implements + farm.implements.size();
  for (const auto& run : runs)
    for (const auto& w : run.work) {
      if (w.tractor != plan::none) use(static_cast<std::size_t>(w.tractor), w);
      if (w.implement != plan::none) use(implements + static_cast<std::size_t>(w.implement), w);
      for (const int who : w.crew)
        if (who != plan::none) use(operators + static_cast<std::size_t>(who), w);
    }
}

void add_workable(plan::Plan& plan, std::vector<plan::YearRun>& runs) {
  for (std::size_t f = 0; f < plan.fields.size(); ++f) {
    auto& chance = plan.workable_chance.emplace_back(runs.front().workable[f].size(), 0.0);
    for (const auto& run : runs)
      for (std::size_t d = 0; d < chance.size(); ++d)
        chance[d] += run.workable[f][d] / static_cast<double>(runs.size());
  }
  for (auto& run : runs) run.workable.clear();
}

void add_jobs(plan::Plan& plan, const std::vector<plan::YearRun>& runs) {
  auto jobs = jobs_of(runs, plan.fields.size());
  for (std::size_t f = 0; f < plan.fields.size(); ++f) plan.fields[f].jobs = std::move(jobs[f]);
}

/// What no plan over the same years can undercut, with its proof.
plan::BoundProof bound_of(const dispatch::Table& table, const plan::Plan& plan, const SearchOptions& options,
                          std::function<void(double)> progress) {
  const auto n = static_cast<double>(table.drivers.size());
  const planner::BoundModel model = planner::make_bound_model(table, options.threads);
  const planner::Bound bound = planner::lower_bound({.model = &model,
                                                     .plan_cents = static_cast<double>(plan.cost_cents) * n,
                                                     .rounds = *options.bound_rounds,
                                                     .threads = options.threads,
                                                     .progress = std::move(progress)});
  return planner::proof_of(model, bound.prices, plan.decision.method, *options.bound_rounds, options.threads);
}

/// The decision that is given, or searched for, from the plan that stands where there is one.
planner::Found found_or_given(const planner::SearchInput& input, const SearchOptions& options,
                              plan::PlannedYears& out) {
  const std::optional<plan::Decision>& given = options.decision;
  if (!given && options.stands) {
    FoundAgain made = found_again(input, options);
    out.plan.again = std::move(made.again);
    out.stood_runs = std::move(made.runs);
    return std::move(made.found);
  }
  if (!given) {
    planner::Found found = planner::search(input);
    if (input.start) found.cheapest_alone = planner::cheapest_alone(input);
    return found;
  }
  return {.decision = *given,
          .cost = 0,
          .cheapest_alone = std::vector<int>(given->method.size(), plan::none),
          .evaluations = 0};
}

}  // namespace

plan::PlannedYears make_plan(const farm::Problem& problem, const SearchOptions& options) {
  require(!problem.years.years.empty(), "a plan needs at least one weather year");
  const auto part = [&](double from, double share) {
    return [&, from, share](double x) {
      if (options.progress) options.progress(from + share * x);
    };
  };
  const dispatch::Table table = dispatch::make_table(problem, options.seed);
  const planner::Folds folds = planner::fold(problem.years.years.size());
  plan::PlannedYears out;
  const planner::Found found =
      found_or_given({.table = &table,
                      .years = folds.search,
                      .seed = options.seed,
                      .threads = options.threads,
                      .evaluations = options.evaluations,
                      .progress = part(0.0, 0.5),
                      .start = options.start,
                      .heat = options.start ? planner::going_on_heat : planner::first_heat},
                     options, out);
  out.runs = play_all(table, found.decision, options.threads);
  plan::Plan& plan = out.plan;
  plan.seed = options.seed;
  plan.as_of = problem.as_of;
  if (problem.forecast && !problem.forecast->days.empty())
    plan.forecast_until = problem.forecast->first + static_cast<int>(problem.forecast->days.size()) - 1;
  for (const auto& run : out.runs) plan.years.push_back(run.year);
  for (const std::size_t y : folds.shown) plan.shown_years.push_back(out.runs[y].year);
  plan.chances_in_sample = folds.in_sample;
  plan.estimated = problem.estimated;
  plan.decision = found.decision;
  plan.wanted_chance = problem.farm.target.wanted_chance;
  plan.evaluations = found.evaluations;
  plan.doubts = journal::doubts_of(problem);
  if (plan.again)
    plan.again->days = days_moved({&problem.farm, &plan, &out.runs, &out.stood_runs, &folds.shown});
  add_fields(plan, table, found,
             {.table = &table,
              .decision = &plan.decision,
              .shown = folds.shown,
              .threads = options.threads,
              .progress = part(0.5, 0.2)});
  plan.schedule_year = out.runs[middle_year(out.runs)].year;
  add_use(plan, table, out.runs);
  add_workable(plan, out.runs);
  add_jobs(plan, out.runs);
  out = with_winter(std::move(out), problem.farm, folds.shown);
  plan.cost_cents = mean_cost(out.runs, false);
  plan.full_cost_cents = mean_cost(out.runs, true);
  if (options.bound_rounds) {
    out.bound = bound_of(table, plan, options, part(0.7, 0.2));
    plan.bound_cents = out.bound->cents_a_year;
  }
  if (options.one_more_plans > 0)
    plan.one_more = one_more({.table = &table,
                              .decision = &plan.decision,
                              .plans = options.one_more_plans,
                              .threads = options.threads,
                              .progress = part(0.9, 0.08)});
  plan.risk = risk_told({.table = &table,
                         .decision = &plan.decision,
                         .runs = &out.runs,
                         .searched = folds.search,
                         .shown = folds.shown,
                         .threads = options.threads});
  plan.cash = cash_by_month(problem.farm, out);
  plan.cautions = cautions(problem.farm, plan.decision);
  plan.troubles = troubles(table, plan);
  out = with_fall_backs(std::move(out), {.table = &table, .shown = folds.shown, .threads = options.threads});
  for (auto& trouble : late_fall_backs(problem.farm, out.plan))
    out.plan.troubles.push_back(std::move(trouble));
  out.plan.dates = dates_to_keep(table, out.plan);
  if (options.progress) options.progress(1.0);
  return out;
}

}  // namespace aftercut::scenario
