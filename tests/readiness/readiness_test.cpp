#include "aftercut/readiness/readiness.hpp"

#include "catch2/catch.hpp"
#include "rows.hpp"
#include "small_farm.hpp"

using namespace aftercut;

namespace {

plan::FieldRun ran(plan::Status status, int day) {
  plan::FieldRun r;
  r.status = status;
  r.ready_day = day;
  return r;
}

std::vector<plan::FieldRun> ten_years() {
  std::vector<plan::FieldRun> runs;
  for (int k = 0; k < 7; ++k) runs.push_back(ran(plan::Status::ready, 200 + k));
  runs.push_back(ran(plan::Status::late, 250));
  runs.push_back(ran(plan::Status::unplanted, plan::none));
  runs.push_back(ran(plan::Status::unplanted, 270));  // ended after the cut-off: no ready day to speak of
  return runs;
}

}  // namespace

TEST_CASE("quantiles are days that occurred, and years without one come last", "[derived]") {
  const farm::Field field = test::small_fields().front();
  const auto r = readiness::of_field(field, ten_years());
  REQUIRE(r.ready.p10);
  REQUIRE(r.ready.p50);
  test::check({{"p10 of ten years: the first", "order statistic ceil(p n)", test::Kind::derived, 200,
                static_cast<double>(*r.ready.p10), 0.0},
               {"p50 of ten years: the fifth", "order statistic ceil(p n)", test::Kind::derived, 204,
                static_cast<double>(*r.ready.p50), 0.0},
               {"chance: 7 of 10 by planting", "definition", test::Kind::derived, 0.7, r.chance, 1e-12}});
  CHECK_FALSE(r.ready.p90);
}

TEST_CASE("a fallow field is never late", "[identity]") {
  farm::Field field = test::small_fields().front();
  field.next.kind = farm::NextUseKind::fallow;
  const auto r = readiness::of_field(field, {ran(plan::Status::nothing_due, plan::none)});
  CHECK(r.chance == 1.0);
  CHECK_FALSE(r.ready.p50);
}

TEST_CASE("no years is our own fault", "[identity]") {
  CHECK_THROWS_AS(readiness::of_field(test::small_fields().front(), {}), InternalError);
}
