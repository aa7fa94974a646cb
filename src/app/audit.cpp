#include <fmt/format.h>

#include <algorithm>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/bound_proof.hpp"
#include "aftercut/audit/made.hpp"
#include "aftercut/dispatch/table.hpp"
#include "aftercut/planner/bound_proof.hpp"
#include "aftercut/scenario/what_if.hpp"

namespace aftercut::app {
namespace {

/// The farm as a what-if planned it: the years are those of the plan, for a case of dry or wet years its
/// third.
farm::Problem in_case(farm::Problem problem, const std::string& name, const std::vector<int>& years) {
  std::erase_if(problem.years.years, [&](const weather::Year& y) {
    return std::find(years.begin(), years.end(), y.year) == years.end();
  });
  const bool of_years = name == "dry-years" || name == "wet-years";
  return of_years ? problem : scenario::built_in_case(problem, name).problem;
}

/// The bound of the multipliers that were written, worked out from nothing but them, the farm and its
/// weather.
plan::BoundProof bound_again(const farm::Problem& problem, const plan::PlannedYears& planned, int threads) {
  const dispatch::Table table = dispatch::make_table(problem, planned.plan.seed);
  const planner::BoundModel model = planner::make_bound_model(table, threads);
  return planner::proof_of(model, planner::prices_of(model, *planned.bound), planned.plan.decision.method,
                           planned.bound->rounds, threads);
}

/// Whether the bound was worked out again, in words; empty: the plan has none.
struct AuditedBound {
  audit::Audit found;
  std::string words;
};
AuditedBound audit_bound(const farm::Problem& problem, const plan::PlannedYears& planned, const Options& o) {
  if (!planned.bound) return {};
  if (o.quick) return {{}, "The bound was not worked out again (--quick).\n"};
  if (!audit::can_be_put_in(problem, planned.plan, *planned.bound))
    return {{}, "The bound was not worked out again: its multipliers cannot be put in.\n"};
  const LateWord word{"Working out the bound again from its multipliers ..."};
  const plan::BoundProof again = bound_again(problem, planned, threads_of(o));
  return {audit::compare_bounds(problem.farm, *planned.bound, again),
          "The bound was worked out again from its multipliers.\n"};
}

audit::Audit audit_years(const farm::Problem& problem, const plan::PlannedYears& planned) {
  const LateWord word{"Living every year again ..."};
  return audit::check(problem, planned);
}

}  // namespace

int audit_plan(const Options& asked) {
  Options o = asked;
  const audit::PlanMade made = audit::plan_made_in(plan_file(o));
  if (made.as_of) o.as_of = iso(*made.as_of);  // the journal as the plan knew it
  auto read = read_input(o);
  if (!read.ok()) return report_issues(read.issues(), o.json);
  farm::Problem problem = std::move(read).value().problem;
  auto planned_read = audit::read_plan(plan_file(o), problem);
  if (!planned_read.ok()) return report_issues(planned_read.issues(), o.json);
  plan::PlannedYears planned = std::move(planned_read).value();
  problem = o.cases.empty() ? with_years_of(std::move(problem), planned.plan.years)
                            : in_case(std::move(problem), o.cases.front(), planned.plan.years);
  problem.as_of = planned.plan.as_of;
  audit::BoundRead bound = audit::read_bound(plan_file(o), problem, planned.plan);
  planned.bound = std::move(bound.proof);
  const audit::Audit years = audit::both(bound.found, audit_years(problem, planned));
  const AuditedBound again = audit_bound(problem, planned, o);
  const audit::Audit all = audit::both(years, again.found);
  fmt::print("{}{}\n", o.json ? audit_json(all) : audit_text(all), o.json ? "" : again.words);
  if (const auto changed = audit::changed_since(made, problem.farm); !all.ok() && !changed.empty())
    fmt::print(stderr, "Not as they were when the plan was made: {}. Put them back, or plan again.\n",
               fmt::join(changed, ", "));
  return all.ok() ? done : not_reached;
}

}  // namespace aftercut::app
