#include "aftercut/scenario/again.hpp"

#include "aftercut/scenario/stay.hpp"
#include "aftercut/scenario/what_if.hpp"
#include "aftercut/scenario/whole_farm.hpp"

namespace aftercut::scenario {

FoundAgain found_again(const planner::SearchInput& input, const SearchOptions& options) {
  const farm::Problem& problem = *input.table->problem;
  const Carried carried = carried_over(problem, *options.stands, problem, options);
  planner::SearchInput from = input;
  if (!from.start) {
    from.start = carried.decision;
    from.heat = planner::going_on_heat;
  }
  FoundAgain out{.found = planner::search(from), .again = {}, .runs = {}};
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
  PlayedInAll stood = played_in_all(*input.table, out.again.stood, input.threads, {.keep_next_crop = true});
  out.again.stood_cents = mean_cost(stood.runs, false);
  out.again.stood_chance = std::move(stood.chance);
  out.runs = std::move(stood.runs);
  return out;
}

}  // namespace aftercut::scenario
