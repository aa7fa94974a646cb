#include <fmt/format.h>
#include "aftercut/app/commands.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/power.hpp"
#include "aftercut/farm/read.hpp"

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

}  // namespace aftercut::app
