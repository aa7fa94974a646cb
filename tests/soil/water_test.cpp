#include "aftercut/soil/water.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include "aftercut/core/random.hpp"
#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::soil;
using aftercut::Draws;
using aftercut::InternalError;
using aftercut::test::check;
using aftercut::test::Kind;
using aftercut::test::Row;

namespace {

double store(const WaterState& s) { return s.seedbed_mm + s.below_mm + s.ponded_mm; }

WaterDay dry_day(double et0_mm) {
  WaterDay day;
  day.et0_mm = et0_mm;
  return day;
}

WaterDay any_day(Draws& draws) {
  WaterDay day;
  day.rain_mm = draws.below(3) == 0 ? draws.gamma(0.7, 12.0) : 0.0;
  day.et0_mm = 8.0 * draws.uniform();
  day.water_in_mm = draws.below(10) == 0 ? 40.0 * draws.uniform() : 0.0;
  day.cover = draws.uniform();
  day.board_height_mm = draws.below(2) == 0 ? 120.0 : 0.0;
  day.opened = draws.uniform();
  day.rutted_share = draws.uniform();
  day.rut_depth_mm = 80.0 * draws.uniform();
  return day;
}

/// Days from now until the ground can be worked; 200 when it never can.
int days_to_workable(const Profile& p, WaterState s, const WaterDay& day) {
  int days = 0;
  for (; days < 200 && !workable(p, s); ++days) s = next(p, s, day).state;
  return days;
}

}  // namespace

TEST_CASE("The balance closes on every day of random weather, and each year as a whole", "[identity]") {
  for (const Texture texture :
       {Texture::clay, Texture::silty_clay, Texture::clay_loam, Texture::sandy_loam}) {
    ProfileInput input;
    input.texture = texture;
    const Profile p = make_profile(input);
    Draws draws{2026, aftercut::stream_of("soil balance"), static_cast<std::uint64_t>(texture)};
    const WaterState start = drained_state(p);
    WaterState s = start;
    double in = 0.0, out = 0.0;
    for (int day = 0; day < 2000; ++day) {
      const WaterStep step = next(p, s, any_day(draws));
      REQUIRE(std::abs(imbalance(s, step)) <= 1e-9 * std::max(1.0, store(s)));
      REQUIRE((step.state.seedbed_mm >= 0.0 && step.state.below_mm >= 0.0 && step.state.ponded_mm >= 0.0));
      REQUIRE(step.state.seedbed_mm <= p.saturation * p.seedbed_depth_mm + 1e-9);
      REQUIRE(step.state.below_mm <= p.saturation * p.below_depth_mm + 1e-9);
      REQUIRE((step.fluxes.evaporation_mm >= 0.0 && step.fluxes.percolation_mm >= 0.0 &&
               step.fluxes.spill_mm >= 0.0));
      in += step.fluxes.rain_mm + step.fluxes.water_in_mm;
      out += step.fluxes.evaporation_mm + step.fluxes.percolation_mm + step.fluxes.spill_mm;
      s = step.state;
    }
    check({{"in - out = change of store over 2000 days", "identity", Kind::identity, store(s) - store(start),
            in - out, 1e-7}});
  }
}

TEST_CASE("A flux that is dropped opens the balance", "[identity]") {
  const Profile p = make_profile({});
  const WaterState before = saturated_state(p, 60.0);
  WaterDay day = dry_day(3.0);
  day.rain_mm = 12.0;
  day.water_in_mm = 5.0;
  const WaterStep whole = next(p, before, day);
  CHECK_NOTHROW(require_balanced(before, whole));
  for (double WaterFluxes::*flux :
       {&WaterFluxes::rain_mm, &WaterFluxes::water_in_mm, &WaterFluxes::evaporation_mm,
        &WaterFluxes::percolation_mm, &WaterFluxes::spill_mm}) {
    WaterStep broken = whole;
    REQUIRE(broken.fluxes.*flux > 0.0);
    broken.fluxes.*flux = 0.0;
    CHECK(std::abs(imbalance(before, broken)) > 1.0);
    CHECK_THROWS_AS(require_balanced(before, broken), InternalError);
  }
}

TEST_CASE("Bad days are refused", "[identity]") {
  const Profile p = make_profile({});
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(next(p, drained_state(p), dry_day(-1.0)), InternalError);
  CHECK_THROWS_AS(next(p, drained_state(p), dry_day(nan)), InternalError);
  WaterDay day = dry_day(1.0);
  day.cover = 1.2;
  CHECK_THROWS_AS(next(p, drained_state(p), day), InternalError);
  WaterState broken = drained_state(p);
  broken.below_mm = nan;
  CHECK_THROWS_AS(next(p, broken, dry_day(1.0)), InternalError);
}

TEST_CASE("The daily balance dries a bare loam as the worked case does", "[recalled]") {
  Profile p = make_profile({});
  p.readily_evaporable_mm = 9.0;
  p.total_evaporable_mm = 20.0;
  const std::array<double, 10> expected{4.73, 4.73, 4.53, 2.59, 1.47, 0.84, 0.48, 0.27, 0.16, 0.09};
  WaterState s = drained_state(p);
  std::vector<Row> rows;
  for (const double e : expected) {
    const WaterStep step = next(p, s, dry_day(4.5));
    rows.push_back({"E of each day from next(), TEW 20 REW 9 ETo 4.5",
                    "Allen1998 ch. 7 worked case (recalled)", Kind::recalled, e, step.fluxes.evaporation_mm,
                    0.01});
    s = step.state;
  }
  check(rows);
}

TEST_CASE("Standing water: evaporation, percolation and the boards", "[derived]") {
  const Profile p = make_profile({});
  WaterDay day = dry_day(2.0);
  day.board_height_mm = 100.0;
  day.rain_mm = 30.0;
  const WaterStep held = next(p, saturated_state(p, 100.0), day);
  const WaterStep drawn = next(p, saturated_state(p, 100.0), dry_day(2.0));
  check({
      {"rain on a full pond goes over the boards", "order of the day", Kind::derived, 30.0,
       held.fluxes.spill_mm, 1e-9},
      {"open water evaporates 1.05 ET0", "Allen1998 ch. 6 (recalled)", Kind::recalled, 2.1,
       held.fluxes.evaporation_mm, 1e-9},
      {"percolation under ponding, 269 mm in 145 to 150 days", "Linquist2015, rate by us", Kind::derived,
       269.0 / 147.5, held.fluxes.percolation_mm, 0.05},
      {"boards out: the drain rate", "ProfileInput::surface_drain_mm_per_day", Kind::derived, 25.0,
       drawn.fluxes.spill_mm, 1e-9},
  });
  CHECK(held.state.ponded_mm == Approx(100.0 - 2.1 - 1.85));
}

TEST_CASE("Water fills the seedbed, then below, then stands", "[identity]") {
  const Profile p = make_profile({});
  const WaterState dry = drained_state(p);
  const double seedbed_room = (p.saturation - p.field_capacity) * p.seedbed_depth_mm;
  const double below_room = (p.saturation - p.field_capacity) * p.below_depth_mm;
  CHECK(saturation_deficit_mm(p, dry) == Approx(seedbed_room + below_room));
  WaterDay day;
  day.board_height_mm = 100.0;
  day.water_in_mm = seedbed_room + below_room + 40.0;
  const WaterStep filled = next(p, dry, day);
  CHECK(filled.state.ponded_mm == Approx(40.0 - p.input.percolation_mm_per_day));
  CHECK(pores_full(p, filled.state) == Approx(1.0));
  CHECK(saturation_deficit_mm(p, filled.state) == Approx(0.0).margin(1e-9));
  day.board_height_mm = 0.0;
  day.water_in_mm = 10.0;
  CHECK(next(p, dry, day).fluxes.spill_mm == 0.0);  // dry ground takes rain up before any runs off
}

TEST_CASE("Ruts and opened ground hold water that does not drain off", "[identity]") {
  const Profile p = make_profile({});
  WaterDay rutted;
  rutted.rutted_share = 0.2;
  rutted.rut_depth_mm = 100.0;
  CHECK(next(p, saturated_state(p, 30.0), rutted).fluxes.spill_mm == Approx(10.0));
  WaterDay opened;
  opened.opened = 1.0;
  CHECK(next(p, saturated_state(p, 8.0), opened).fluxes.spill_mm == 0.0);
  CHECK(next(p, saturated_state(p, 8.0), WaterDay{}).fluxes.spill_mm == Approx(8.0));
  WaterDay sun = dry_day(2.4);
  const int smooth = days_to_workable(p, saturated_state(p, 30.0), sun);
  sun.rutted_share = 0.3;
  sun.rut_depth_mm = 80.0;
  CHECK(days_to_workable(p, saturated_state(p, 30.0), sun) > smooth);
}

TEST_CASE("Cover, cold and wet ground below slow the drying; opening speeds it", "[identity]") {
  const Profile p = make_profile({});
  const WaterState wet = saturated_state(p, 50.0);
  WaterDay day = dry_day(2.4);
  const int bare = days_to_workable(p, wet, day);
  CHECK(days_to_workable(p, wet, dry_day(1.2)) > bare);
  CHECK(days_to_workable(p, wet, dry_day(6.0)) < bare);
  day.cover = 0.9;
  CHECK(days_to_workable(p, wet, day) > bare);
  ProfileInput no_rise;
  no_rise.capillary_mm_per_day = 0.0;
  CHECK(days_to_workable(make_profile(no_rise), wet, dry_day(2.4)) < bare);
  day.cover = 0.0;
  WaterDay opened = day;
  opened.opened = 1.0;
  CHECK(next(p, drained_state(p), opened).fluxes.evaporation_mm >
        next(p, drained_state(p), day).fluxes.evaporation_mm);
}

TEST_CASE("More cover never evaporates more, at any wetness", "[identity]") {
  const Profile p = make_profile({});
  for (double drop = 0.0; drop < 40.0; drop += 4.0) {
    WaterState s = drained_state(p);
    s.seedbed_mm -= drop;
    double last = 1e9;
    for (double cover = 0.0; cover <= 1.0; cover += 0.25) {
      WaterDay day = dry_day(5.0);
      day.cover = cover;
      const double e = next(p, s, day).fluxes.evaporation_mm;
      CHECK(e <= last);
      last = e;
    }
  }
}

TEST_CASE("Without sun a clay never becomes workable, however long it drains", "[identity]") {
  const Profile p = make_profile({});
  CHECK(days_to_workable(p, saturated_state(p, 50.0), dry_day(0.0)) == 200);
}

TEST_CASE("A flooded clay in March needs one to four dry weeks; after a summer drain it is ready by harvest",
          "[identity]") {
  const Profile p = make_profile({});
  const int march = days_to_workable(p, saturated_state(p, 50.0), dry_day(2.4));
  CHECK(march >= 10);
  CHECK(march <= 25);
  CHECK(days_to_workable(p, saturated_state(p, 50.0), dry_day(6.0)) <= 21);
}

TEST_CASE("Very long drying stops at half the wilting content", "[identity]") {
  const Profile p = make_profile({});
  WaterState s = drained_state(p);
  for (int day = 0; day < 500; ++day) s = next(p, s, dry_day(9.0)).state;
  CHECK(seedbed_content(p, s) >= 0.5 * p.wilting - 1e-12);
  CHECK(decay_wetness(p, s) == Approx(0.0).margin(0.01));
  CHECK(decay_wetness(p, drained_state(p)) == Approx(1.0));
}

TEST_CASE("Driving: no deep water, and firm enough for the load", "[identity]") {
  const Profile p = make_profile({});
  const TrafficLimits limits;
  const TrafficContents contents = traffic_contents(p, limits);
  WaterState dry = drained_state(p);
  dry.seedbed_mm = p.wilting * p.seedbed_depth_mm;
  WaterState deep = dry;
  deep.ponded_mm = 10.5;
  for (const LoadClass load : {LoadClass::light, LoadClass::heavy, LoadClass::tracked}) {
    CHECK(trafficable(p, dry, load, limits));
    CHECK_FALSE(trafficable(p, deep, load, limits));
    for (double share = 0.4; share <= 1.0; share += 0.02) {
      WaterState s = dry;
      s.seedbed_mm = share * p.saturation * p.seedbed_depth_mm;
      CHECK(trafficable(p, s, load, limits) == trafficable(p, s, load, contents));
    }
  }
  CHECK(contents.heavy < contents.light);
  CHECK(contents.light < contents.tracked);
  CHECK_FALSE(trafficable(p, saturated_state(p, 0.0), LoadClass::heavy, limits));
}

TEST_CASE("The slow end of a field dries later, never sooner", "[identity]") {
  const Profile p = make_profile({});
  WaterState s = drained_state(p);
  double mean_ready = 0.0, slow_ready = 0.0;
  for (double lost = 0.0; lost <= 30.0; lost += 0.5) {
    s.seedbed_mm = p.field_capacity * p.seedbed_depth_mm - lost;
    if (workable(p, s, 0.3)) CHECK(workable(p, s));
    if (mean_ready == 0.0 && workable(p, s)) mean_ready = lost;
    if (slow_ready == 0.0 && workable(p, s, 0.3)) slow_ready = lost;
  }
  REQUIRE(mean_ready > 0.0);
  CHECK(slow_ready == Approx(mean_ready / 0.7).margin(1.0));
}
