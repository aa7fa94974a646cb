#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/read.hpp"

namespace aftercut::app {

int check_farm(const Options& o) {
  const auto read = farm::read(o.farm, {});
  if (!read.ok()) return report_issues(read.issues(), o.json);
  const farm::Problem& p = read.value();
  if (o.json) {
    fmt::print("{}\n", issues_json({}));
    return done;
  }
  double area = 0.0;
  for (const auto& f : p.farm.fields) area += f.area.value();
  fmt::print(
      "{}: {} fields, {:.1f} ha, {} tractors, {} implements, {} operators, {} weather years; no issue "
      "found.\n",
      p.farm.name, p.farm.fields.size(), area, p.farm.tractors.size(), p.farm.implements.size(),
      p.farm.operators.size(), p.years.years.size());
  const weather::Estimated& e = p.estimated;
  fmt::print("Weather days filled: temperature {}, rain {}, humidity {}, wind {}, radiation {}.\n",
             e.temperature_days, e.rain_days, e.humidity_days, e.wind_days, e.radiation_days);
  for (const auto& note : p.farm.notes) fmt::print("  {}\n", note);
  return done;
}

int audit_plan(const Options& o) {
  auto read = read_input(o);
  if (!read.ok()) return report_issues(read.issues(), o.json);
  std::filesystem::path file{o.plan};
  if (std::filesystem::is_directory(file)) file /= "plan.json";
  farm::Problem problem = std::move(read).value().problem;
  const auto planned = audit::read_plan(file, problem);
  if (!planned.ok()) return report_issues(planned.issues(), o.json);
  problem = with_years_of(std::move(problem), planned.value().plan.years);
  problem.as_of = planned.value().plan.as_of;
  const audit::Audit audit = audit::check(problem, planned.value());
  fmt::print("{}\n", o.json ? audit_json(audit) : audit_text(audit));
  return audit.ok() ? done : not_reached;
}

}  // namespace aftercut::app
