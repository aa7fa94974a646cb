#include "aftercut/scenario/trial.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/farm/wishes.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/weather/fit_generator.hpp"

namespace aftercut::scenario {
namespace {

constexpr std::size_t years_at_a_time = 20;  // of invented ones: bounds memory

plan::MeanOfYears mean_of_years(const std::vector<double>& values) {
  plan::MeanOfYears m{.mean = mean(values), .error = {}};
  if (values.size() > 1) m.error = standard_error(values);
  return m;
}

/// What is told of one year.
struct YearFigures {
  int year = 0;
  double rain_mm = 0.0, cost = 0.0, straw_done = 0.0, ready = 0.0, planted = 0.0;
};

YearFigures figures_of(const farm::Problem& p, std::size_t year, const plan::YearRun& run) {
  YearFigures y{.year = run.year, .cost = static_cast<double>(dispatch::cost_of(run)) / 100.0};
  for (const weather::Day& d : p.years.years[year].days) y.rain_mm += d.rain_mm;
  double area = 0.0, due = 0.0;
  for (std::size_t f = 0; f < run.fields.size(); ++f) {
    const double ha = p.farm.fields[f].area.value();
    const plan::FieldRun& r = run.fields[f];
    area += ha;
    if (r.steps_passed_over == 0 && r.straw_over_day != plan::none) y.straw_done += ha;
    if (!farm::seedbed_due(p.farm.fields[f])) continue;
    due += ha;
    if (r.status == plan::Status::ready) y.ready += ha;
    if (r.status == plan::Status::ready || r.status == plan::Status::late) y.planted += ha;
  }
  y.straw_done /= area;
  y.ready = due > 0.0 ? y.ready / due : 1.0;
  y.planted = due > 0.0 ? y.planted / due : 1.0;
  return y;
}

std::vector<YearFigures> played(const dispatch::Table& t, const plan::Decision& decision,
                                const std::vector<std::size_t>& years, int threads) {
  std::vector<YearFigures> out(years.size());
  for_each_index(years.size(), threads, [&](std::size_t k) {
    out[k] = figures_of(*t.problem, years[k], dispatch::run(t, decision, years[k]));
  });
  return out;
}

std::vector<double> each(const std::vector<YearFigures>& years, double YearFigures::*what) {
  std::vector<double> values;
  for (const YearFigures& y : years) values.push_back(y.*what);
  return values;
}

plan::TrialSet trial_set(const char* name, const std::vector<YearFigures>& years) {
  plan::TrialSet s{.name = name,
                   .season_rain_mm = mean_of_years(each(years, &YearFigures::rain_mm)),
                   .cost = mean_of_years(each(years, &YearFigures::cost)),
                   .straw_done = mean_of_years(each(years, &YearFigures::straw_done)),
                   .seedbed_ready = mean_of_years(each(years, &YearFigures::ready)),
                   .planted = mean_of_years(each(years, &YearFigures::planted))};
  for (const YearFigures& y : years) s.years.push_back(y.year);
  return s;
}

/// The invented years of one lot, with a table of its own.
std::vector<YearFigures> played_lot(const farm::Problem& problem, std::vector<weather::Year> years,
                                    const plan::Decision& decision, std::uint64_t seed) {
  farm::Problem lot = problem;
  lot.years.years = std::move(years);
  if (problem.forecast) weather::put_forecast_in_front(lot.years, *problem.forecast, problem.farm.site);
  if (problem.seen) weather::put_forecast_in_front(lot.years, *problem.seen, problem.farm.site);
  const dispatch::Table table = dispatch::make_table(lot, seed);
  return played(table, decision, first_numbers(lot.years.years.size()), 1);
}

/// Invented years, lots side by side.
std::vector<YearFigures> played_invented(const farm::Problem& problem, const weather::Years& years,
                                         const plan::Decision& decision, const SearchOptions& o,
                                         const std::function<void(double)>& progress) {
  const std::size_t n = years.years.size(), lots = (n + years_at_a_time - 1) / years_at_a_time;
  std::vector<std::vector<YearFigures>> by_lot(lots);
  std::mutex telling;
  std::size_t done = 0;
  for_each_index(lots, o.threads, [&](std::size_t k) {
    const auto from = years.years.begin() + static_cast<std::ptrdiff_t>(k * years_at_a_time);
    const auto count = static_cast<std::ptrdiff_t>(std::min(years_at_a_time, n - k * years_at_a_time));
    by_lot[k] = played_lot(problem, {from, from + count}, decision, o.seed);
    const std::scoped_lock lock{telling};
    progress(static_cast<double>(++done) / static_cast<double>(lots));
  });
  std::vector<YearFigures> out;
  for (const auto& lot : by_lot) out.insert(out.end(), lot.begin(), lot.end());
  return out;
}

/// Both plans in all years: how much dearer a year is under the plan that had not seen it.
plan::MeanOfYears flattery(const dispatch::Table& t, const planner::Folds& folds, const plan::Decision& seen,
                           const plan::Decision& other_way, int threads) {
  const auto by = [&](const plan::Decision& d, const std::vector<std::size_t>& years) {
    return each(played(t, d, years, threads), &YearFigures::cost);
  };
  std::vector<double> dearer;
  const auto add = [&](const std::vector<double>& unseen, const std::vector<double>& known) {
    for (std::size_t k = 0; k < unseen.size(); ++k) dearer.push_back(unseen[k] - known[k]);
  };
  add(by(other_way, folds.search), by(seen, folds.search));
  add(by(seen, folds.shown), by(other_way, folds.shown));
  return mean_of_years(dearer);
}

std::optional<weather::GeneratorParameters> parameters_of(const farm::Problem& problem,
                                                          const TrialOptions& options) {
  return options.parameters ? options.parameters : weather::fit_generator(problem.record, problem.farm.site);
}

void add_invented(plan::Trial& trial, const farm::Problem& problem, const TrialOptions& options,
                  const std::function<void(double)>& progress) {
  const auto parameters = parameters_of(problem, options);
  if (!parameters) {
    trial.no_invented = "the weather record has fewer than " + std::to_string(weather::least_fit_years) +
                        " whole years from October to September to fit invented ones to";
    return;
  }
  const farm::Farm& farm = problem.farm;
  const weather::Years years =
      weather::invented_years(*parameters, farm.site, farm.season.first, farm.season.days,
                              options.invented_years, options.search.seed);
  const auto lived = played_invented(problem, years, trial.decision, options.search, progress);
  trial.sets.push_back(trial_set("invented", lived));
  trial.invented_rain_spread_mm = deviation(each(lived, &YearFigures::rain_mm));
}

plan::MeanOfYears difference(const plan::MeanOfYears& a, const plan::MeanOfYears& b) {
  plan::MeanOfYears d{.mean = a.mean - b.mean, .error = {}};
  if (a.error && b.error) d.error = std::hypot(*a.error, *b.error);
  return d;
}

}  // namespace

plan::Trial try_plan(const farm::Problem& problem, const TrialOptions& options) {
  require(problem.years.years.size() >= 2, "a plan is tried on years that it was not searched on");
  const SearchOptions& o = options.search;
  const dispatch::Table table = dispatch::make_table(problem, o.seed);
  const planner::Folds folds = planner::fold(problem.years.years.size());
  const auto part = [&](double from, double share) {
    return [&o, from, share](double x) {
      if (o.progress) o.progress(from + share * x);
    };
  };
  const auto found = [&](const std::vector<std::size_t>& years, std::function<void(double)> progress) {
    return planner::search({.table = &table,
                            .years = years,
                            .seed = o.seed,
                            .threads = o.threads,
                            .evaluations = o.evaluations,
                            .progress = std::move(progress)})
        .decision;
  };
  plan::Trial trial;
  trial.decision = o.decision ? *o.decision : found(folds.search, part(0.0, 0.4));
  const plan::Decision other_way = found(folds.shown, part(0.4, 0.4));
  const auto searched = played(table, trial.decision, folds.search, o.threads);
  const auto apart = played(table, trial.decision, folds.shown, o.threads);
  trial.sets = {trial_set("searched", searched), trial_set("kept_apart", apart)};
  trial.apart_less_searched = difference(trial.sets[1].cost, trial.sets[0].cost);
  trial.search_flatters = flattery(table, folds, trial.decision, other_way, o.threads);
  std::vector<double> rain = each(searched, &YearFigures::rain_mm);
  for (const double mm : each(apart, &YearFigures::rain_mm)) rain.push_back(mm);
  trial.record_rain_spread_mm = deviation(rain);
  add_invented(trial, problem, options, part(0.8, 0.2));
  if (o.progress) o.progress(1.0);
  return trial;
}

}  // namespace aftercut::scenario
