#include <fmt/format.h>

#include <cstdio>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/report/machines.hpp"
#include "aftercut/report/stacks.hpp"
#include "aftercut/scenario/stacks.hpp"

namespace aftercut::app {

int show_machines(const Options& o) {
  const auto read = farm::read(o.farm, {});
  if (!read.ok()) return report_issues(read.issues(), false);
  fmt::print("{}", report::machines_text(read.value().farm));
  return done;
}

int plan_stacks(const Options& o) {
  const auto input = read_input(o);
  if (!input.ok()) return report_issues(input.issues(), false);
  const farm::Farm& farm = input.value().problem.farm;
  std::vector<plan::Spread> bales = scenario::bales_if_all_baled(farm);
  if (!o.plan.empty()) {
    const auto planned = audit::read_plan(plan_file(o), input.value().problem);
    if (!planned.ok()) return report_issues(planned.issues(), false);
    bales = scenario::bales_of_plan(farm, planned.value());
  }
  const plan::StackPlan plan = scenario::plan_stacks(farm, std::move(bales), o.plan.empty());
  if (!o.out.empty()) {
    const auto written = report::write_stacks(farm, plan, o.out);
    if (!written.ok()) return report_issues(written.issues(), false);
  }
  fmt::print("{}", report::stacks_text(farm, plan));
  if (!o.out.empty()) fmt::print("Map written: {}\n", o.out);
  return done;
}

}  // namespace aftercut::app
