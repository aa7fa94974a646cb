#include <fmt/format.h>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/report/watch.hpp"
#include "aftercut/review/ahead.hpp"

namespace aftercut::app {
namespace {

/// The look is kept in the farm folder, the picture of all looks beside the plan.
Result<std::filesystem::path> keep(const Options& o, const farm::Farm& farm, const plan::Look& look) {
  const auto looks = review::keep_look(o.farm, look);
  if (!looks.ok()) return looks.issues();
  return save_file(plan_file(o).parent_path() / "readiness.svg", report::readiness_svg(farm, looks.value()));
}

}  // namespace

int watch_fields(const Options& o) {
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  const farm::Problem& problem = input.value().problem;
  const auto stands = audit::read_decision(plan_file(o), problem);
  const auto looks = review::looks_in(o.farm);
  Issues issues = stands.issues();
  for (const Issue& i : looks.issues()) issues.push_back(i);
  if (!issues.empty()) return report_issues(issues, o.json);
  const plan::Ahead ahead = review::look_ahead(
      problem, stands.value(), looks.value(),
      {.seed = o.seed, .threads = threads_of(o), .progress = progress_line("Looking ahead")});
  const auto kept = keep(o, problem.farm, ahead.look);
  if (!kept.ok()) return report_issues(kept.issues(), o.json);
  fmt::print("{}", o.json ? report::watch_json(problem, ahead) : report::watch_text(problem, ahead));
  return ahead.calls.empty() ? done : not_reached;
}

}  // namespace aftercut::app
