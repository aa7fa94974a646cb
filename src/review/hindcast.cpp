#include "aftercut/review/hindcast.hpp"

#include <algorithm>
#include <limits>
#include <mutex>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/core/random.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/farm/wishes.hpp"
#include "aftercut/review/reliability.hpp"

namespace aftercut::review {
namespace {

constexpr double share_of_searches = 0.8;  // of the time, for the progress line

std::vector<std::size_t> all_but(std::size_t n, std::size_t left_out) {
  std::vector<std::size_t> others = first_numbers(n);
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(left_out));
  return others;
}

/// `known` before the day, `later` from the day on; bears the label of `later`.
weather::Year known_until(const weather::Year& known, weather::Year later, int day) {
  std::copy_n(known.days.begin(), day, later.days.begin());
  std::copy_n(known.et0_mm.begin(), day, later.et0_mm.begin());
  return later;
}

/// The day on which a hired outfit is there, when all that is known is whether it was by `day`. Another
/// winter in which it came before tells nothing then; a day is drawn from those that are left.
int arrival(const farm::Calendar& season, const machinery::Implement& i, int known, int later, int day,
            Draws draws) {
  if (!i.hire || known < day) return known;
  if (later >= day) return later;
  double gone = 0.0;
  for (const auto& c : i.hire->comes)
    if (season.day(c.day) < day) gone = std::max(gone, c.chance);
  const double drawn = gone + (1.0 - gone) * draws.uniform();
  for (const auto& c : i.hire->comes)
    if (season.day(c.day) >= day && drawn < c.chance) return season.day(c.day);
  return std::numeric_limits<int>::max();
}

/// What was drawn for `winter` before the day holds in the table's year `k`, which is `other` from then on.
void keep_what_was_drawn(dispatch::Table& t, std::size_t k, const dispatch::Table& winters,
                         std::size_t winter, std::size_t other, int day) {
  std::copy_n(winters.burn_days[winter].called.begin(), day, t.burn_days[k].called.begin());
  const farm::Farm& farm = t.problem->farm;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    const Draws draws{t.seed, stream_of("hindcast-comes:" + farm.implements[i].id.value),
                      static_cast<std::uint64_t>(t.drivers[k].year)};
    t.hired_from[k][i] = arrival(farm.season, farm.implements[i], winters.hired_from[winter][i],
                                 winters.hired_from[other][i], day, draws);
  }
}

/// [winter][field] as it was played in full.
using Truth = std::vector<std::vector<plan::FieldRun>>;

bool in_time(const plan::FieldRun& run) { return run.status == plan::Status::ready; }

double share_in_time(const Truth& runs, std::size_t field, std::optional<std::size_t> left_out = {}) {
  std::size_t ready = 0, counted = 0;
  for (std::size_t w = 0; w < runs.size(); ++w) {
    if (w == left_out) continue;
    ++counted;
    ready += in_time(runs[w][field]) ? 1 : 0;
  }
  return static_cast<double>(ready) / static_cast<double>(counted);
}

std::vector<plan::SaidChance> said_in(const dispatch::Table& winters, const plan::Decision& decision,
                                      std::size_t winter, int day, const Truth& truth) {
  const farm::Farm& farm = winters.problem->farm;
  Truth ahead;
  for (plan::YearRun& run : runs_known_until(winters, decision, winter, day))
    ahead.push_back(std::move(run.fields));
  Truth at_start;
  for (const std::size_t other : all_but(truth.size(), winter))
    at_start.push_back(dispatch::run(winters, decision, other).fields);
  std::vector<plan::SaidChance> said;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    if (!farm::seedbed_due(farm.fields[f])) continue;
    said.push_back({.winter = winters.drivers[winter].year,
                    .field = static_cast<int>(f),
                    .said = share_in_time(ahead, f),
                    .climatology = share_in_time(truth, f, winter),
                    .at_start = share_in_time(at_start, f),
                    .happened = in_time(truth[winter][f]),
                    .ready_day = truth[winter][f].ready_day});
  }
  return said;
}

std::vector<plan::Decision> decisions_of(const HindcastInput& in, const dispatch::Table& table,
                                         const std::function<void(double)>& progress) {
  std::vector<plan::Decision> decisions;
  const std::size_t n = table.drivers.size();
  for (std::size_t w = 0; w < n; ++w) {
    decisions.push_back(in.choose(table, all_but(n, w)));
    progress(share_of_searches * static_cast<double>(w + 1) / static_cast<double>(n));
  }
  return decisions;
}

}  // namespace

farm::Problem past_winters(const farm::Problem& problem) {
  farm::Problem past{.farm = problem.farm,
                     .years = problem.years,
                     .estimated = problem.estimated,
                     .record = problem.record,
                     .forecast = {},
                     .as_of = problem.farm.season.first};
  const auto& years = problem.years.years;
  if (problem.record.days.empty() || years.empty()) return past;
  past.years = weather::lay_on_season(problem.record, problem.farm.site, problem.farm.season.first,
                                      problem.farm.season.days, years.front().year, years.back().year);
  return past;
}

std::vector<plan::YearRun> runs_known_until(const dispatch::Table& winters, const plan::Decision& decision,
                                            std::size_t winter, int day) {
  const farm::Problem& problem = *winters.problem;
  const std::vector<std::size_t> others = all_but(problem.years.years.size(), winter);
  farm::Problem ahead{
      .farm = problem.farm, .years = {problem.years.season_first, {}}, .as_of = problem.as_of};
  for (const std::size_t other : others)
    ahead.years.years.push_back(known_until(problem.years.years[winter], problem.years.years[other], day));
  dispatch::Table table = dispatch::make_table(ahead, winters.seed);
  for (std::size_t k = 0; k < others.size(); ++k)
    keep_what_was_drawn(table, k, winters, winter, others[k], day);
  std::vector<plan::YearRun> runs;
  for (std::size_t k = 0; k < others.size(); ++k) runs.push_back(dispatch::run(table, decision, k));
  return runs;
}

plan::Hindcast hindcast(const HindcastInput& in) {
  const auto& years = in.problem->years.years;
  require(years.size() >= least_winters, "a hindcast needs three winters or more");
  const auto progress = [&in](double share) {
    if (in.progress) in.progress(share);
  };
  const dispatch::Table table = dispatch::make_table(*in.problem, in.seed);
  plan::Hindcast h;
  for (const weather::Year& y : years) h.winters.push_back(y.year);
  h.decisions = decisions_of(in, table, progress);
  Truth truth(years.size());
  for_each_index(years.size(), in.threads,
                 [&](std::size_t w) { truth[w] = dispatch::run(table, h.decisions[w], w).fields; });
  const std::size_t cells = in.days.size() * years.size();
  std::vector<std::vector<plan::SaidChance>> said(cells);
  std::mutex telling;
  std::size_t done = 0;
  for_each_index(cells, in.threads, [&](std::size_t k) {
    const std::size_t w = k % years.size();
    said[k] = said_in(table, h.decisions[w], w, in.days[k / years.size()], truth);
    const std::scoped_lock lock{telling};
    progress(share_of_searches +
             (1.0 - share_of_searches) * static_cast<double>(++done) / static_cast<double>(cells));
  });
  const Redraws redraws{.seed = in.seed};
  for (std::size_t d = 0; d < in.days.size(); ++d) {
    plan::HindcastDate date{.day = in.days[d]};
    for (std::size_t w = 0; w < years.size(); ++w) {
      const auto& of_winter = said[d * years.size() + w];
      date.said.insert(date.said.end(), of_winter.begin(), of_winter.end());
    }
    date.classes = classes_of(date.said, redraws);
    if (!date.said.empty()) date.scores = brier_scores(date.said, redraws);
    h.dates.push_back(std::move(date));
  }
  return h;
}

}  // namespace aftercut::review
