#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/report/trade_offs.hpp"
#include "aftercut/scenario/trade_offs.hpp"

namespace aftercut::app {

int trade_offs(const Options& o) {
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), o.json);
  const farm::Problem& problem = input.value().problem;
  const auto start = std::chrono::steady_clock::now();
  plan::TradeOffs all = scenario::trade_offs(problem, {.seed = o.seed,
                                                       .threads = threads_of(o),
                                                       .evaluations = o.evaluations,
                                                       .progress = progress_line("Weighing")});
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  report::TradeOffsShown shown{&problem, &all, {}};
  for (plan::WeighedPlan& p : all.plans) {
    p.planned.plan.version = AFTERCUT_VERSION;
    shown.audits.push_back(audit::check(problem, p.planned));
  }
  const auto written = report::write_trade_offs(shown, o.out);
  if (!written.ok()) return report_issues(written.issues(), o.json);
  if (o.json) {
    fmt::print("{}", report::trade_offs_json(shown));
  } else {
    fmt::print("{}", report::trade_offs_text(shown));
    fmt::print("Planned in {:.1f} s. Pictures: {}/trade-offs.html; a plan folder for each\n", took.count(),
               o.out);
  }
  return std::ranges::all_of(shown.audits, [](const auto& a) { return a.ok(); }) ? done : not_reached;
}

}  // namespace aftercut::app
