#include <fmt/format.h>

#include <cstdio>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/farm/read.hpp"
#include "aftercut/report/straw.hpp"

namespace aftercut::app {

int show_straw(const Options& o) {
  const auto read = [&o] {
    const LateWord word{"Reading the farm and its yield map ..."};
    return farm::read(o.farm, {.fit_implements = false});
  }();
  if (!read.ok()) return report_issues(read.issues(), false);
  const farm::Farm& farm = read.value().farm;
  if (!o.out.empty()) {
    const auto written = report::write_straw(farm, o.out);
    if (!written.ok()) return report_issues(written.issues(), false);
  }
  fmt::print("{}", report::straw_text(farm));
  if (!o.out.empty()) fmt::print("Layers written: {}\n", o.out);
  return done;
}

}  // namespace aftercut::app
