#include "aftercut/scenario/again.hpp"

#include "aftercut/core/parallel.hpp"
#include "aftercut/readiness/readiness.hpp"
#include "aftercut/scenario/stay.hpp"
#include "aftercut/scenario/what_if.hpp"
#include "aftercut/scenario/whole_farm.hpp"

namespace aftercut::scenario {
namespace {

/// What the plan that stood comes to from now on.
void play_stood(plan::Again& again, const planner::SearchInput& in) {
  const dispatch::Table& t = *in.table;
  std::vector<plan::YearRun> runs(t.drivers.size());
  for_each_index(runs.size(), in.threads, [&](std::size_t y) { runs[y] = dispatch::run(t, again.stood, y); });
  again.stood_cents = mean_cost(runs, false);
  const farm::Farm& farm = t.problem->farm;
  const std::vector<std::size_t> shown = planner::fold(runs.size()).shown;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    std::vector<plan::FieldRun> of_field;
    for (const std::size_t y : shown) of_field.push_back(runs[y].fields[f]);
    again.stood_chance.push_back(
        again.stood.method[f] == plan::none ? 0.0 : readiness::of_field(farm.fields[f], of_field).chance);
  }
}

}  // namespace

FoundAgain found_again(const planner::SearchInput& input, const SearchOptions& options) {
  const farm::Problem& problem = *input.table->problem;
  const Carried carried = carried_over(problem, *options.stands, problem, options);
  planner::SearchInput from = input;
  if (!from.start) {
    from.start = carried.decision;
    from.heat = planner::going_on_heat;
  }
  FoundAgain out{.found = planner::search(from), .again = {}};
  out.found.cheapest_alone = planner::cheapest_alone(from);
  const Stayed stayed = stay({.table = input.table,
                              .stood = &carried.decision,
                              .found = &out.found.decision,
                              .years = input.years,
                              .threads = input.threads});
  out.found.decision = stayed.decision;
  out.again.stood = carried.decision;
  for (const plan::MethodChange& c : carried.replaced)
    out.again.barred.push_back({.field = c.field, .from = c.from, .to = c.to, .made = true});
  out.again.moves = stayed.moves;
  out.again.autumn_order = stayed.autumn_order;
  out.again.spring_order = stayed.spring_order;
  out.again.asked_per_ha = problem.farm.target.change_gain_per_ha.value();
  play_stood(out.again, input);
  return out;
}

}  // namespace aftercut::scenario
