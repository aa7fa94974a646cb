// A plan of the planner comes through the audit clean, in every weather year and for several farms.

#include "catch2/catch.hpp"
#include "sound_plan.hpp"

#include "aftercut/scenario/base_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

TEST_CASE("a plan with five different methods is clean", "[cross]") {
  const audit::Audit a = audit::check(locked_problem(), sound_plan());
  INFO(listed(a));
  CHECK(a.count == 0);
  CHECK(a.ok());
  CHECK(a.checks > 1000);
}

TEST_CASE("the sound plan has something to look at", "[cross]") {
  const auto& planned = sound_plan();
  const auto& farm = locked_problem().farm;
  CHECK(planned.runs.size() == 4);
  for (const char* op :
       {"rake", "bale", "haul", "chop", "disk", "burn", "cage_roll", "boards_out", "chisel", "groove_roll"})
    CHECK_NOTHROW(other_year_with(planned, farm, op));
  std::size_t water_days = 0;
  std::int64_t lease = 0;
  for (const auto& run : planned.runs) {
    water_days += run.water.size();
    lease += run.fields[3].cost.lease_income;
  }
  CHECK(water_days > 4);
  CHECK(lease < 0);
}

TEST_CASE("a searched plan without locks is clean", "[cross]") {
  const farm::Problem problem = small_problem(3);
  for (const std::uint64_t seed : {1U, 2U}) {
    const auto planned =
        scenario::make_plan(problem, {.seed = seed, .threads = 1, .evaluations = 30, .progress = {}});
    const audit::Audit a = audit::check(problem, planned);
    INFO(listed(a));
    CHECK(a.ok());
  }
}

TEST_CASE("one weather year serves search and chances", "[cross]") {
  const farm::Problem problem = small_problem(1);
  const auto planned =
      scenario::make_plan(problem, {.seed = 3, .threads = 1, .evaluations = 10, .progress = {}});
  const audit::Audit a = audit::check(problem, planned);
  INFO(listed(a));
  CHECK(a.ok());
}

TEST_CASE("the audit of the same plan is the same", "[identity]") {
  const audit::Audit a = audit::check(locked_problem(), sound_plan());
  const audit::Audit b = audit::check(locked_problem(), sound_plan());
  CHECK(a.checks == b.checks);
  CHECK(a.count == b.count);
}
