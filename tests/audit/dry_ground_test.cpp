// Dry ground in the audit: too early a finishing pass is named, and hard ground's pace and fuel are worked
// out anew.

#include <algorithm>

#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// No rain after January, a dry limit just under the wet one, and tractors that hard ground slows.
farm::Problem make_dry() {
  farm::Problem p = without_rain_from(locked_problem(), 150);
  soil::ProfileInput hard = p.farm.soils[0].input;
  hard.entered_dry_limit = 0.40;
  hard.dry_draft_gain = 1.2;
  p.farm.soils[0] = soil::make_profile(hard);
  for (auto& t : p.farm.tractors) t.pto_power = KiloWatt{95.0};
  p.farm.most_dry_wait_days = 9;
  return p;
}

const farm::Problem& dry_problem() {
  static const farm::Problem problem = make_dry();
  return problem;
}

const plan::PlannedYears& dry_plan() {
  static const plan::PlannedYears planned =
      scenario::make_plan(dry_problem(), {.seed = 5, .threads = 1, .evaluations = 10, .progress = {}});
  return planned;
}

int last_day(const plan::YearRun& run, const farm::Farm& farm, int field, const char* operation) {
  int day = plan::none;
  for (const auto& w : run.work)
    if (w.field == field && w.operation == operation_named(farm, operation)) day = std::max(day, w.day);
  return day;
}

}  // namespace

TEST_CASE("a plan for a dry spring is clean, and finishes on too dry ground", "[cross]") {
  const audit::Audit a = audit::check(dry_problem(), dry_plan());
  INFO(listed(a));
  CHECK(a.ok());
  int finished_dry = 0;
  for (const auto& run : dry_plan().runs)
    for (const auto& field : run.fields) finished_dry += field.finished_dry;
  CHECK(finished_dry > 4);
}

TEST_CASE("a finishing pass that did not wait for moister ground is named", "[cross]") {
  plan::PlannedYears planned = dry_plan();
  const farm::Farm& farm = dry_problem().farm;
  const std::size_t y = other_year_with(planned, farm, "plane");
  plan::Work& plane = work_of(planned.runs[y], farm, "plane");
  const int disked = last_day(planned.runs[y], farm, plane.field, "disk_spring");
  REQUIRE(plane.day > disked + farm.most_dry_wait_days);
  plane.day = disked + farm.most_dry_wait_days;
  CHECK(broken_rules(dry_problem(), planned).contains("ground too dry to finish"));
  plane.day = disked + farm.most_dry_wait_days + 1;  // its wait is over, whatever else may be wrong
  CHECK_FALSE(broken_rules(dry_problem(), planned).contains("ground too dry to finish"));
}

TEST_CASE("a disk that works hard ground at the pace of easy ground is named", "[cross]") {
  farm::Problem easy = dry_problem();
  soil::ProfileInput soft = easy.farm.soils[0].input;
  soft.dry_draft_gain = 0.0;
  easy.farm.soils[0] = soil::make_profile(soft);
  const auto planned =
      scenario::make_plan(easy, {.seed = 5, .threads = 1, .evaluations = 10, .progress = {}});
  CHECK(broken_rules(easy, planned).empty());
  const auto rules = broken_rules(dry_problem(), planned);
  CHECK(rules.contains("wrong area"));
  CHECK(rules.contains("wrong fuel"));
}
