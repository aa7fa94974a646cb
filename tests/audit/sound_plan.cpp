#include "sound_plan.hpp"

#include <algorithm>

#include "aftercut/scenario/base_plan.hpp"

namespace aftercut::test {
namespace {

farm::Problem make_locked() {
  farm::Problem p = small_problem();
  const char* methods[] = {"bale", "bale_disk", "chop_disk", "roll_flood", "burn"};
  for (std::size_t f = 0; f < p.farm.fields.size(); ++f) p.farm.fields[f].locked = MethodId{methods[f]};
  p.farm.fields[3].lease = farm::WaterLease{make_date(2026, 12, 1), make_date(2027, 2, 10), Money{60.0}};
  return p;
}

}  // namespace

const farm::Problem& locked_problem() {
  static const farm::Problem problem = make_locked();
  return problem;
}

const plan::PlannedYears& sound_plan() {
  static const plan::PlannedYears planned =
      scenario::make_plan(locked_problem(), {.seed = 5, .threads = 1, .evaluations = 20, .progress = {}});
  return planned;
}

std::set<std::string> broken_rules(const farm::Problem& problem, const plan::PlannedYears& planned) {
  std::set<std::string> rules;
  for (const auto& v : audit::check(problem, planned).violations) rules.insert(v.rule);
  return rules;
}

std::string listed(const audit::Audit& audit) {
  std::string text;
  for (const auto& v : audit.violations)
    text += v.rule + " | " + v.where + " | " + v.found + " | " + v.expected + "\n";
  return text;
}

int operation_named(const farm::Farm& farm, const std::string& id) {
  for (std::size_t o = 0; o < farm.book.operations.size(); ++o)
    if (farm.book.operations[o].id.value == id) return static_cast<int>(o);
  throw std::runtime_error("no operation " + id);
}

plan::Work& work_of(plan::YearRun& run, const farm::Farm& farm, const std::string& operation, int field) {
  const int o = operation_named(farm, operation);
  const auto found = std::find_if(run.work.begin(), run.work.end(), [&](const plan::Work& w) {
    return w.operation == o && (field < 0 || w.field == field);
  });
  if (found == run.work.end()) throw std::runtime_error("no work " + operation + " in the run");
  return *found;
}

std::size_t other_year_with(const plan::PlannedYears& planned, const farm::Farm& farm,
                            const std::string& operation) {
  const int o = operation_named(farm, operation);
  for (std::size_t y = 0; y < planned.runs.size(); ++y) {
    const auto& run = planned.runs[y];
    if (run.year == planned.plan.schedule_year) continue;
    if (std::any_of(run.work.begin(), run.work.end(), [&](const plan::Work& w) { return w.operation == o; }))
      return y;
  }
  throw std::runtime_error("no other year with " + operation);
}

}  // namespace aftercut::test
