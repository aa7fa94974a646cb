#include <fmt/format.h>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/report/trial.hpp"
#include "aftercut/scenario/trial.hpp"

namespace aftercut::app {
namespace {

Result<std::optional<weather::GeneratorParameters>> parameters_asked(const Options& o) {
  if (o.parameters.empty()) return std::optional<weather::GeneratorParameters>{};
  const auto read = read_parameters(o);
  if (!read.ok()) return read.issues();
  return std::optional{read.value()};
}

Result<Input> input_to_try(const Options& o) {
  auto input = read_input(o);
  if (!input.ok() || input.value().problem.years.years.size() >= 2) return input;
  return Issues{{"command line", o.years.empty() ? "weather years" : "--years",
                 std::to_string(input.value().problem.years.years.size()), "two weather years or more",
                 "a plan is searched on half of them and tried on the others: give a longer record"}};
}

}  // namespace

int try_plan(const Options& o) {
  const auto input = input_to_try(o);
  const auto parameters = parameters_asked(o);
  Issues issues = input.issues();
  for (const Issue& i : parameters.issues()) issues.push_back(i);
  if (!issues.empty()) return report_issues(issues, o.json);
  const farm::Problem& problem = input.value().problem;
  const plan::Trial trial = scenario::try_plan(problem, {.search = {.seed = o.seed,
                                                                    .threads = threads_of(o),
                                                                    .evaluations = o.evaluations,
                                                                    .progress = progress_line("Trying")},
                                                         .invented_years = o.invented_years,
                                                         .parameters = parameters.value()});
  const report::TrialShown shown{.problem = &problem,
                                 .trial = &trial,
                                 .version = AFTERCUT_VERSION,
                                 .seed = o.seed,
                                 .evaluations = o.evaluations,
                                 .parameters = o.parameters};
  fmt::print("{}", o.json ? report::trial_json(shown) : report::trial_text(shown));
  return done;
}

}  // namespace aftercut::app
