// The audit and the bales of a baling that broke off.

#include "half_baled_farm.hpp"

#include <algorithm>

#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

const farm::Problem& problem_half_baled() {
  static const farm::Problem problem = half_baled_problem();
  return problem;
}

const plan::PlannedYears& plan_half_baled() {
  static const plan::PlannedYears planned =
      scenario::make_plan(problem_half_baled(), {.seed = 5, .threads = 1, .evaluations = 10, .progress = {}});
  return planned;
}

/// The rules broken when a change is made to the hauling of some year that is not the schedule's.
std::set<std::string> broken_by(void (*change)(plan::YearRun&, plan::Work&)) {
  plan::PlannedYears planned = plan_half_baled();
  plan::YearRun& run = planned.runs[other_year_with(planned, problem_half_baled().farm, "haul")];
  change(run, work_of(run, problem_half_baled().farm, "haul", half_baled_field));
  return broken_rules(problem_half_baled(), planned);
}

}  // namespace

TEST_CASE("a plan whose baling breaks off is clean", "[cross]") {
  const audit::Audit a = audit::check(problem_half_baled(), plan_half_baled());
  INFO(listed(a));
  CHECK(a.ok());
}

TEST_CASE("a plan in which a half-baled field is raked anew is clean, and raking all of it is found",
          "[cross]") {
  const farm::Problem p = raked_anew_problem();
  const plan::PlannedYears planned =
      scenario::make_plan(p, {.seed = 5, .threads = 1, .evaluations = 10, .progress = {}});
  const audit::Audit a = audit::check(p, planned);
  INFO(listed(a));
  CHECK(a.ok());
  const auto rakings = [&](const plan::YearRun& run) {
    return std::ranges::count_if(run.work, [&](const plan::Work& w) {
      return w.field == half_baled_field && w.finishes &&
             p.farm.book.operations[static_cast<std::size_t>(w.operation)].id.value == "rake";
    });
  };
  const auto anew =
      std::ranges::find_if(planned.runs, [&](const plan::YearRun& run) { return rakings(run) > 1; });
  REQUIRE(anew != planned.runs.end());
  plan::PlannedYears more = planned;
  plan::YearRun& run = more.runs[static_cast<std::size_t>(anew - planned.runs.begin())];
  for (plan::Work& w : run.work)
    if (w.field == half_baled_field &&
        p.farm.book.operations[static_cast<std::size_t>(w.operation)].id.value == "rake")
      w.area_ha = 20.0;
  CHECK(broken_rules(p, more).contains("wrong area"));
}

TEST_CASE("bales that are not hauled, or too many of them, are found", "[cross]") {
  CHECK(broken_by([](plan::YearRun& run, plan::Work& haul) {
          const plan::Work gone = haul;
          std::erase_if(run.work, [&](const plan::Work& w) {
            return w.field == gone.field && w.operation == gone.operation;
          });
        }).contains("step out of order"));
  CHECK(broken_by([](plan::YearRun&, plan::Work& haul) { haul.area_ha *= 1.1; }).contains("wrong area"));
  CHECK(broken_by([](plan::YearRun&, plan::Work& haul) { haul.end_min += 60; }).contains("wrong hours"));
  CHECK(broken_by([](plan::YearRun&, plan::Work& haul) {
          haul.fell_back = true;
        }).contains("step out of order"));
}
