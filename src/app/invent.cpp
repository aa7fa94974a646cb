#include <fmt/format.h>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/weather/csv.hpp"

namespace aftercut::app {

int invent_weather(const Options& o) {
  const auto parameters = read_parameters(o);
  if (!parameters.ok()) return report_issues(parameters.issues(), o.json);
  const weather::GeneratorParameters& p = parameters.value();
  const auto rows = weather::generate(p, p.site, o.first_year, o.year_count, o.seed == 0 ? p.seed : o.seed);
  const auto saved = save_file(o.out, weather::to_csv(rows));
  if (!saved.ok()) return report_issues(saved.issues(), o.json);
  fmt::print("{} invented days in {}\n", rows.size(), o.out);
  return done;
}

}  // namespace aftercut::app
