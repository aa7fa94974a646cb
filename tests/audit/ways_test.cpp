// Ways between fields and true outlines: the audit's own figures against the dispatch's, and what each rule
// catches.

#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "sound_plan.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// The locked farm with kilometres between its fields, soft ways, and implements that fit no two fields
/// alike.
farm::Problem spread_out() {
  farm::Problem p = locked_problem();
  const std::size_t n = p.farm.fields.size();
  p.farm.travel.km.assign(n, std::vector<double>(n, 0.0));
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = 0; b < n; ++b)
      p.farm.travel.km[a][b] = a == b ? 0.0 : 1.7 + static_cast<double>(a + b);
  p.farm.travel.access.assign(n, farm::Access::soft);
  p.farm.travel.soft_rain_mm = 1.0;
  for (std::size_t f = 0; f < n; ++f) {
    auto& fits = p.farm.fits.emplace_back();
    for (const auto& i : p.farm.implements)
      fits.push_back({Fraction{i.field_efficiency.value() * (0.75 + 0.05 * static_cast<double>(f))}, true});
  }
  return p;
}

plan::PlannedYears planned_for(const farm::Problem& p) {
  return scenario::make_plan(p, {.seed = 5, .threads = 1, .evaluations = 12, .progress = {}});
}

}  // namespace

TEST_CASE("a plan with ways and outlines is clean, and takes longer", "[cross]") {
  const farm::Problem far = spread_out();
  const plan::PlannedYears planned = planned_for(far);
  const audit::Audit a = audit::check(far, planned);
  INFO(listed(a));
  CHECK(a.ok());
}

TEST_CASE("a move that forgets the way is named", "[cross]") {
  const farm::Problem far = spread_out();
  plan::PlannedYears planned = planned_for(far);
  const std::size_t y = other_year_with(planned, far.farm, "chisel");
  const plan::Work before = work_of(planned.runs[y], far.farm, "chisel");
  plan::Work after = before;
  after.field = before.field == 0 ? 1 : 0;
  after.start_min = before.end_min + 21;  // folded and unfolded, not driven
  after.end_min = after.start_min + 60;
  planned.runs[y].work.push_back(after);
  CHECK(broken_rules(far, planned).contains("no time to move"));
}

TEST_CASE("hours by the typical efficiency where an outline is known are named", "[cross]") {
  const farm::Problem far = spread_out();
  farm::Problem typical = far;
  typical.farm.fits.clear();
  const auto rules = broken_rules(far, planned_for(typical));
  CHECK(rules.contains("wrong area"));
}

TEST_CASE("bales hauled over a soft road after rain are named", "[cross]") {
  farm::Problem far = spread_out();
  far.farm.travel.soft_rain_mm = 0.1;
  far.farm.travel.soft_days = 25;
  farm::Problem hard = far;
  hard.farm.travel.access.assign(hard.farm.fields.size(), farm::Access::hard);
  plan::PlannedYears planned = planned_for(hard);
  // The plan is made as if the roads held; somewhere in its years bales leave within the days after rain.
  CHECK(broken_rules(far, planned).contains("loaded wagon on a soft road"));
}

TEST_CASE("a stay shorter than the least that leaves its pass open is named", "[cross]") {
  const farm::Problem far = spread_out();
  farm::Problem patient = far;
  patient.farm.work_day.least_stay_min = 300;
  CHECK(broken_rules(patient, planned_for(far)).contains("stay too short"));
}
