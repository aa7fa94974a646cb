#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/report/what_if.hpp"
#include "aftercut/scenario/what_if.hpp"

namespace aftercut::app {
namespace {

/// The farm read again with one --set: "set-1", "set-2" in their order.
Result<scenario::ChangedFarm> case_as_set(const Options& o, const farm::Problem& base, std::size_t k) {
  Options with = o;
  with.set = {o.set[k]};
  auto read = read_input(with);
  if (!read.ok()) return read.issues();
  scenario::ChangedFarm c{fmt::format("set-{}", k + 1),    o.set[k], "", {},
                          std::move(read.value().problem), {}};
  if (!farm::same_fields(base.farm, c.problem.farm))
    return Issues{{"command line", "--set", o.set[k], "a change that leaves the farm its fields",
                   "make a folder of its own for a farm with other fields"}};
  c.set = farm::read_settings(o.set[k]).value();
  c.kept = c.problem;
  return c;
}

/// The cases asked for, built-in ones first; none asked for: all built-in ones.
Result<std::vector<scenario::ChangedFarm>> cases_of(const Options& o, const farm::Problem& base) {
  std::vector<std::string> names = o.cases;
  if (names.empty() && o.set.empty()) names = scenario::case_names();
  std::vector<scenario::ChangedFarm> cases;
  for (const std::string& name : names) cases.push_back(scenario::built_in_case(base, name));
  Issues issues;
  for (std::size_t k = 0; k < o.set.size(); ++k) {
    auto c = case_as_set(o, base, k);
    const Issues found = c.issues();
    issues.insert(issues.end(), found.begin(), found.end());
    if (c.ok()) cases.push_back(std::move(c).value());
  }
  if (!issues.empty()) return issues;
  return cases;
}

report::WhatIfShown shown_with_audits(const farm::Problem& base,
                                      const std::vector<scenario::ChangedFarm>& cases, plan::WhatIf& all) {
  report::WhatIfShown shown{&base, &all, {}, {}, {}};
  all.base.plan.version = AFTERCUT_VERSION;
  shown.base = audit::check(base, all.base);
  for (std::size_t k = 0; k < cases.size(); ++k) {
    all.cases[k].planned.plan.version = all.cases[k].kept.plan.version = AFTERCUT_VERSION;
    shown.audits.push_back({audit::check(cases[k].problem, all.cases[k].planned),
                            audit::check(cases[k].kept, all.cases[k].kept)});
    shown.case_problems.push_back(&cases[k].problem);
  }
  return shown;
}

}  // namespace

int what_if(const Options& o) {
  Options unchanged = o;
  unchanged.set.clear();
  const auto input = read_input(unchanged);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  const farm::Problem& problem = input.value().problem;
  const auto cases = cases_of(o, problem);
  if (!cases.ok()) return report_issues(cases.issues(), o.json);
  const auto start = std::chrono::steady_clock::now();
  plan::WhatIf all = scenario::what_if(problem, cases.value(),
                                       {.seed = o.seed,
                                        .threads = threads_of(o),
                                        .evaluations = o.evaluations,
                                        .progress = progress_line("Planning the base and every case")});
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  const report::WhatIfShown shown = shown_with_audits(problem, cases.value(), all);
  const auto written = report::write_what_if(shown, o.out);
  if (!written.ok()) return report_issues(written.issues(), o.json);
  if (o.json) {
    fmt::print("{}", report::what_if_json(shown));
  } else {
    fmt::print("{}", report::what_if_text(shown));
    fmt::print("Planned in {:.1f} s. Plans: {}/base and a folder for each case\n", took.count(), o.out);
  }
  const bool sound =
      shown.base.ok() && std::all_of(shown.audits.begin(), shown.audits.end(),
                                     [](const auto& a) { return a.planned.ok() && a.kept.ok(); });
  return sound ? done : not_reached;
}

}  // namespace aftercut::app
