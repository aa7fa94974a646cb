#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/power.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/scenario/what_if.hpp"

namespace aftercut::app {

namespace {

/// Where a soil becomes workable, by the rule in force and by the others: the published rules differ, and
/// days hang on it. Beside it where it becomes too dry to be made fine.
std::string tillage_limit_words(const soil::Profile& p) {
  const double air = 100.0 * soil::wet_limit_ten_percent_air(p.retention);
  const double inflection = 100.0 * soil::wet_limit_inflection(p.retention);
  const std::string both = fmt::format("10 % air gives {:.1f}, the inflection rule {:.1f}", air, inflection);
  return fmt::format(
      "Soil {}: workable below {:.1f} % water by volume ({}), too dry to finish below {:.1f} % ({}); {}",
      p.input.name, 100.0 * p.wet_limit,
      p.input.wet_limit_rule == soil::WetLimitRule::entered           ? "as entered"
      : p.input.wet_limit_rule == soil::WetLimitRule::ten_percent_air ? "10 % air"
                                                                      : "inflection",
      100.0 * p.dry_limit, p.input.entered_dry_limit ? "as entered" : "assumed", both);
}

/// The farm as a what-if planned it: the years are those of the plan, for a case of dry or wet years its
/// third.
farm::Problem in_case(farm::Problem problem, const std::string& name, const std::vector<int>& years) {
  std::erase_if(problem.years.years, [&](const weather::Year& y) {
    return std::find(years.begin(), years.end(), y.year) == years.end();
  });
  const bool of_years = name == "dry-years" || name == "wet-years";
  return of_years ? problem : scenario::built_in_case(problem, name).problem;
}

}  // namespace

int check_farm(const Options& o) {
  const auto read = farm::read(o.farm, {.fit_implements = false});
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
  for (const auto& soil : p.farm.soils) fmt::print("  {}\n", tillage_limit_words(soil));
  for (const auto& note : p.farm.notes) fmt::print("  {}\n", note);
  for (const auto& note : farm::power_notes(p.farm)) fmt::print("  {}\n", note);
  return done;
}

int audit_plan(const Options& o) {
  auto read = read_input(o);
  if (!read.ok()) return report_issues(read.issues(), o.json);
  farm::Problem problem = std::move(read).value().problem;
  const auto planned = audit::read_plan(plan_file(o), problem);
  if (!planned.ok()) return report_issues(planned.issues(), o.json);
  problem = o.cases.empty() ? with_years_of(std::move(problem), planned.value().plan.years)
                            : in_case(std::move(problem), o.cases.front(), planned.value().plan.years);
  problem.as_of = planned.value().plan.as_of;
  const audit::Audit audit = audit::check(problem, planned.value());
  fmt::print("{}\n", o.json ? audit_json(audit) : audit_text(audit));
  return audit.ok() ? done : not_reached;
}

}  // namespace aftercut::app
