#include <fmt/format.h>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/report/watch.hpp"
#include "aftercut/review/rush.hpp"
#include "aftercut/review/watch.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/scenario/what_if.hpp"

namespace aftercut::app {
namespace {

constexpr const char* looks_file = "readiness.jsonl";

Result<std::vector<plan::Look>> looks_in(const std::filesystem::path& folder) {
  if (!std::filesystem::exists(folder / looks_file)) return std::vector<plan::Look>{};
  const auto text = read_file(folder / looks_file);
  if (!text.ok()) return text.issues();
  return review::read_looks(text.value(), looks_file);
}

/// The looks with today's, kept in the farm folder, and their picture beside the plan.
Result<std::filesystem::path> keep(const Options& o, const farm::Farm& farm, std::vector<plan::Look> looks) {
  const auto kept = save_file(std::filesystem::path{o.farm} / looks_file, review::looks_text(looks));
  if (!kept.ok()) return kept;
  return save_file(plan_file(o).parent_path() / "readiness.svg", report::readiness_svg(farm, looks));
}

}  // namespace

int watch_fields(const Options& o) {
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  const farm::Problem& problem = input.value().problem;
  const auto stands = audit::read_decision(plan_file(o), problem);
  const auto looks = looks_in(o.farm);
  Issues issues = stands.issues();
  for (const Issue& i : looks.issues()) issues.push_back(i);
  if (!issues.empty()) return report_issues(issues, o.json);
  const scenario::SearchOptions search{.seed = o.seed, .threads = threads_of(o)};
  const scenario::Carried carried = scenario::carried_over(problem, stands.value(), problem, search);
  auto played = search;
  played.decision = carried.decision;
  played.progress = progress_line("Looking ahead");
  const plan::PlannedYears planned = scenario::make_plan(problem, played);
  const dispatch::Table table = dispatch::make_table(problem, o.seed);
  const auto storm = review::storm_list(table, carried.decision, threads_of(o));
  report::WatchShown shown{.problem = &problem, .look = review::look_at(problem, planned.plan)};
  const std::vector<plan::Look> before = looks.value();
  shown.before = review::before(before, shown.look.day);
  if (shown.before != nullptr) shown.changes = review::changes_between(*shown.before, shown.look);
  shown.calls = review::calls_of(shown.look);
  if (storm) shown.storm = &*storm;
  const auto kept = keep(o, problem.farm, review::with(before, shown.look));
  if (!kept.ok()) return report_issues(kept.issues(), o.json);
  fmt::print("{}", o.json ? report::watch_json(shown) : report::watch_text(shown));
  return shown.calls.empty() ? done : not_reached;
}

}  // namespace aftercut::app
