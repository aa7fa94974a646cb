#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/report/passes.hpp"

namespace aftercut::app {
namespace {

/// The implement asked for; without a wish the first disk, or else the first of all.
Result<std::size_t> implement_of(const farm::Farm& farm, const std::string& wished) {
  const auto& all = farm.implements;
  if (all.empty())
    return Issues{
        {"farm.json", "implements", "none", "at least one implement", "enter an implement with its width"}};
  const auto found = std::find_if(all.begin(), all.end(), [&](const machinery::Implement& i) {
    return wished.empty() ? i.kind == "disk" : i.id.value == wished;
  });
  if (found != all.end()) return static_cast<std::size_t>(found - all.begin());
  if (wished.empty()) return std::size_t{0};
  std::string ids;
  for (const auto& i : all) ids += (ids.empty() ? "" : ", ") + i.id.value;
  return Issues{{"command line", "--implement", wished, "one of " + ids, "name an implement of the farm"}};
}

machinery::SwathMachine machine_of(const machinery::Implement& implement, const Options& o) {
  machinery::SwathMachine m = farm::swath_machine(implement);
  if (o.rounds) m.headland_rounds = *o.rounds;
  if (o.turn_radius_m) m.turning.radius = Metre{*o.turn_radius_m};
  return m;
}

}  // namespace

int show_passes(const Options& o) {
  const auto read = farm::read(o.farm, {.fit_implements = false});
  if (!read.ok()) return report_issues(read.issues(), false);
  const farm::Farm& farm = read.value().farm;
  const auto implement = implement_of(farm, o.implement);
  if (!implement.ok()) return report_issues(implement.issues(), false);
  const machinery::SwathMachine machine = machine_of(farm.implements[implement.value()], o);
  const report::MachinePasses passes = report::lay_passes(farm, implement.value(), machine, threads_of(o));
  if (!o.out.empty()) {
    const auto written = report::write_passes(farm, passes, o.out);
    if (!written.ok()) return report_issues(written.issues(), false);
  }
  fmt::print("{}", report::passes_text(farm, passes));
  if (!o.out.empty()) fmt::print("Lines written: {}\n", o.out);
  return done;
}

}  // namespace aftercut::app
