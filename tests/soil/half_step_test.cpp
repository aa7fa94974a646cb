// Days lived in halves against whole days: the same where the balance is a straight line or an exponential,
// close where evaporation falls with the water that is left.

#include "aftercut/soil/water.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::soil;
using aftercut::test::check;
using aftercut::test::Kind;

namespace {

struct Run {
  WaterState end;
  WaterFluxes sum;
};

Run live(const Profile& p, WaterState s, WaterDay day, int days, int parts) {
  day.rain_mm /= parts;
  day.et0_mm /= parts;
  day.water_in_mm /= parts;
  Run run{s, {}};
  for (int k = 0; k < days * parts; ++k) {
    const WaterStep step = next(p, run.end, day, 1.0 / parts);
    run.end = step.state;
    run.sum.evaporation_mm += step.fluxes.evaporation_mm;
    run.sum.percolation_mm += step.fluxes.percolation_mm;
    run.sum.spill_mm += step.fluxes.spill_mm;
  }
  return run;
}

}  // namespace

TEST_CASE("Half days of water held below the boards are whole days", "[identity]") {
  const Profile p = make_profile({});
  const WaterDay held{.rain_mm = 4.0, .et0_mm = 2.0, .water_in_mm = 3.0, .board_height_mm = 400.0};
  const Run whole = live(p, saturated_state(p, 100.0), held, 30, 1),
            half = live(p, saturated_state(p, 100.0), held, 30, 2);
  const char* source = "two half steps";
  check({{"pond after 30 days", source, Kind::cross, whole.end.ponded_mm, half.end.ponded_mm, 1e-9},
         {"evaporation", source, Kind::cross, whole.sum.evaporation_mm, half.sum.evaporation_mm, 1e-9},
         {"percolation", source, Kind::cross, whole.sum.percolation_mm, half.sum.percolation_mm, 1e-9}});
}

TEST_CASE("Half days of macropore drainage without sun are whole days", "[identity]") {
  ProfileInput tight;
  tight.percolation_mm_per_day = 0.0;
  tight.capillary_mm_per_day = 0.0;
  const Profile p = make_profile(tight);
  WaterState wet = drained_state(p);
  wet.seedbed_mm = p.saturation * p.seedbed_depth_mm;
  for (const int days : {1, 2, 5}) {
    const Run whole = live(p, wet, {}, days, 1), half = live(p, wet, {}, days, 2),
              tenth = live(p, wet, {}, days, 10);
    CHECK(whole.end.seedbed_mm < wet.seedbed_mm);
    check({{"seedbed by halves", "exponential drainage", Kind::cross, whole.end.seedbed_mm,
            half.end.seedbed_mm, 1e-9},
           {"by tenths", "exponential drainage", Kind::cross, whole.end.seedbed_mm, tenth.end.seedbed_mm,
            1e-9}});
  }
}

TEST_CASE("Half days of drying agree with whole days within 2 % of what evaporates", "[identity]") {
  const Profile p = make_profile({});
  for (const double et0 : {1.5, 3.0, 5.0})
    for (const int days : {5, 15, 40}) {
      CAPTURE(et0, days);
      const WaterDay sun{.et0_mm = et0};
      const Run whole = live(p, drained_state(p), sun, days, 1),
                half = live(p, drained_state(p), sun, days, 2);
      CHECK(half.sum.evaporation_mm <= whole.sum.evaporation_mm + 1e-9);  // it sees the ground dry earlier
      CHECK(half.sum.evaporation_mm == Catch::Detail::Approx(whole.sum.evaporation_mm).epsilon(0.02));
    }
}

TEST_CASE("A step is longer than nothing", "[identity]") {
  CHECK_THROWS_AS(next(make_profile({}), drained_state(make_profile({})), {}, 0.0), aftercut::InternalError);
}
