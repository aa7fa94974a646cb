#include "aftercut/scenario/replan.hpp"

#include "aftercut/core/require.hpp"
#include "aftercut/farm/wishes.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/scenario/what_if.hpp"
#include "aftercut/scenario/whole_farm.hpp"

namespace aftercut::scenario {
namespace {

plan::Decision searched_from(const dispatch::Table& table, const plan::Decision& start,
                             const ReplanInput& in) {
  return planner::search({.table = &table,
                          .years = planner::fold(table.drivers.size()).search,
                          .seed = in.seed,
                          .threads = in.threads,
                          .evaluations = in.evaluations,
                          .progress = in.progress,
                          .start = start,
                          .heat = planner::going_on_heat})
      .decision;
}

std::vector<plan::NoMethod> without_a_method(const dispatch::Table& table, const plan::Decision& decision) {
  const farm::Farm& farm = table.problem->farm;
  std::vector<plan::NoMethod> out;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    if (decision.method[f] != plan::none) continue;
    plan::NoMethod n{.field = static_cast<int>(f)};
    for (std::size_t r = 0; farm.fields[f].locked && r < farm.book.recipes.size(); ++r) {
      if (farm.book.recipes[r].id != *farm.fields[f].locked) continue;
      n.fixed = static_cast<int>(r);
      n.why_not = table.why_not[f][r];
    }
    out.push_back(std::move(n));
  }
  return out;
}

/// The plan that stood, kept, and `found`; none: searched from the plan kept.
plan::Replanned told(const ReplanInput& in, const plan::Decision* found) {
  require(in.before->farm.fields.size() == in.after->farm.fields.size(), "changes leave the farm its fields");
  const farm::Farm& farm = in.after->farm;
  const dispatch::Table before = dispatch::make_table(*in.before, in.seed),
                        after = dispatch::make_table(*in.after, in.seed);
  const Carried carried =
      carried_over(*in.before, *in.decision, *in.after, {.seed = in.seed, .threads = in.threads});
  plan::Replanned out;
  out.replaced = carried.replaced;
  out.decision = found != nullptr ? *found : searched_from(after, carried.decision, in);
  out.no_method = without_a_method(after, out.decision);
  out.changes = changes_of(in.before->farm, *in.decision, farm, out.decision);
  const PlayedInAll stood = played_in_all(before, *in.decision, in.threads),
                    kept = played_in_all(after, carried.decision, in.threads),
                    now = played_in_all(after, out.decision, in.threads);
  out.before = whole_farm(in.before->farm, stood.runs, stood.chance);
  out.kept = whole_farm(farm, kept.runs, kept.chance);
  out.after = whole_farm(farm, now.runs, now.chance);
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    if (farm::seedbed_due(farm.fields[f]))
      out.chances.push_back({static_cast<int>(f), stood.chance[f], kept.chance[f], now.chance[f]});
  return out;
}

}  // namespace

plan::Replanned replan(const ReplanInput& input) { return told(input, nullptr); }

plan::Replanned replan_with(const ReplanInput& input, const plan::Decision& found) {
  return told(input, &found);
}

}  // namespace aftercut::scenario
