#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <optional>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/report/report.hpp"
#include "aftercut/scenario/base_plan.hpp"

namespace aftercut::app {
namespace {

plan::PlannedYears plan_for(const Input& in, const Options& o, std::optional<int> bound_rounds,
                            int one_more_plans, const std::optional<plan::Decision>& stands = {}) {
  auto planned = scenario::make_plan(in.problem, {.seed = o.seed,
                                                  .threads = threads_of(o),
                                                  .evaluations = o.evaluations,
                                                  .bound_rounds = bound_rounds,
                                                  .one_more_plans = one_more_plans,
                                                  .progress = progress_line("Planning"),
                                                  .stands = stands});
  planned.plan.version = AFTERCUT_VERSION;
  const std::vector<plan::Trouble> troubles = troubles_of(in);
  planned.plan.troubles.insert(planned.plan.troubles.begin(), troubles.begin(), troubles.end());
  return planned;
}

}  // namespace

int make_plan(const Options& o) {
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  const Input& in = input.value();
  std::optional<plan::Decision> stands;
  if (!o.after.empty()) {
    const auto read = audit::read_decision(plan_file_in(o.after), in.problem);
    if (!read.ok()) return report_issues(read.issues(), o.json);
    stands = read.value();
  }
  const auto start = std::chrono::steady_clock::now();
  const plan::PlannedYears planned = plan_for(in, o, o.bound_rounds, o.one_more_plans, stands);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  const audit::Audit audit = audit::check(in.problem, planned);
  const auto written = report::write(in.problem, planned, audit, o.out);
  if (!written.ok()) return report_issues(written.issues(), o.json);
  if (o.json) {
    fmt::print("{}\n", report::plan_json(in.problem, planned, audit));
  } else {
    fmt::print("{}", report::summary_text(in.problem, planned, audit));
    fmt::print("Planned in {:.1f} s. Report: {}/report.html\n", took.count(), o.out);
  }
  return audit.ok() && planned.plan.troubles.empty() ? done : not_reached;
}

int compare_methods(const Options& o) {
  auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  Input in = std::move(input.value());
  farm::Problem& problem = in.problem;
  if (!o.shown_units.empty())
    problem.farm.units = o.shown_units == "US" ? farm::UnitSystem::us : farm::UnitSystem::si;
  const auto& fields = problem.farm.fields;
  int chosen = plan::none;
  if (!o.field.empty()) {
    const auto found =
        std::find_if(fields.begin(), fields.end(), [&](const auto& f) { return f.id.value == o.field; });
    if (found == fields.end()) {
      std::string ids;
      for (const auto& f : fields) ids += (ids.empty() ? "" : ", ") + f.id.value;
      return report_issues(
          {{"command line", "--field", o.field, "one of " + ids, "name a field of the farm"}}, o.json);
    }
    chosen = static_cast<int>(found - fields.begin());
  }
  const plan::PlannedYears planned = plan_for(in, o, std::nullopt, 0);
  if (o.json) {
    fmt::print("{}\n", fields_json(report::plan_json(problem, planned, {}), o.field));
    return done;
  }
  for (int f = 0; f < static_cast<int>(fields.size()); ++f)
    if (chosen == plan::none || chosen == f)
      fmt::print("{}\n", o.message ? report::compare_message(problem, planned, static_cast<std::size_t>(f))
                                   : report::compare_text(problem, planned, f));
  return done;
}

}  // namespace aftercut::app
