// Equations of grass fires against figures worked out from them, and their laws.
#include "aftercut/burn/fire_behaviour.hpp"

#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::burn;
using test::Kind;

namespace {

constexpr KgPerHa three_tonnes{3000.0};

double intensity(const FireWeather& w) {
  return front_intensity_kw_per_m(three_tonnes, head_spread_km_h(Pasture::cut, w, 100.0));
}
double crossing(const FireWeather& w, double width_m, bool trees = false) {
  return 100.0 * chance_of_crossing(intensity(w), Metre{width_m}, trees);
}

const FireWeather mild{20, 50, 8}, warm{25, 40, 10}, dry{30, 25, 20}, fierce{35, 15, 40};

}  // namespace

TEST_CASE("moisture, spread and heat of grass fires", "[derived]") {
  const auto cut = [](const FireWeather& w) { return head_spread_km_h(Pasture::cut, w, 100.0); };
  const auto natural = [](const FireWeather& w) { return head_spread_km_h(Pasture::natural, w, 100.0); };
  test::check({
      {"moisture 20/50 [%]", "McArthur1966", Kind::derived, 12.38, dead_grass_moisture_percent(mild), 0.005},
      {"moisture 25/40 [%]", "McArthur1966", Kind::derived, 9.975, dead_grass_moisture_percent(warm), 0.0005},
      {"moisture 30/25 [%]", "McArthur1966", Kind::derived, 6.88, dead_grass_moisture_percent(dry), 0.005},
      {"moisture 35/15, floor [%]", "McArthur1966", Kind::derived, 5.0, dead_grass_moisture_percent(fierce),
       1e-12},
      {"cut 20/50/8 [km/h]", "Cheney1998", Kind::derived, 0.758, cut(mild), 0.0005},
      {"cut 25/40/10 [km/h]", "Cheney1998", Kind::derived, 1.322, cut(warm), 0.0005},
      {"cut 30/25/20 [km/h]", "Cheney1998", Kind::derived, 3.867, cut(dry), 0.0005},
      {"cut 35/15/40 [km/h]", "Cheney1998", Kind::derived, 9.016, cut(fierce), 0.0005},
      {"natural 20/50/8 [km/h]", "Cheney1998", Kind::derived, 0.917, natural(mild), 0.0005},
      {"natural 30/25/20 [km/h]", "Cheney1998", Kind::derived, 4.585, natural(dry), 0.0005},
      {"natural 35/15/40 [km/h]", "Cheney1998", Kind::derived, 10.631, natural(fierce), 0.0005},
      {"moisture factor just below 12 %", "Cheney1998", Kind::derived, 0.27362,
       moisture_factor(12.0 - 1e-9, 8.0), 5e-6},
      {"moisture factor at 12 %", "Cheney1998", Kind::derived, 0.27360, moisture_factor(12.0, 8.0), 5e-6},
      {"heat 20/50/8 at 3 t/ha [kW/m]", "Byram1959", Kind::derived, 1174, intensity(mild), 0.5},
      {"heat 25/40/10 [kW/m]", "Byram1959", Kind::derived, 2048, intensity(warm), 0.6},
      {"heat 30/25/20 [kW/m]", "Byram1959", Kind::derived, 5994, intensity(dry), 0.8},
      {"heat 35/15/40 [kW/m]", "Byram1959", Kind::derived, 13975, intensity(fierce), 1.0},
      {"length to breadth at 20 km/h", "Cheney1998", Kind::derived, 4.42, length_to_breadth(20.0), 0.005},
      {"back to head at 20 km/h", "Cheney1998", Kind::derived, 0.013, back_to_head(20.0), 0.0005},
      {"flames at 1000 kW/m [m]", "Byram1959", Kind::recalled, 1.86, flame_length_m(1000.0), 0.005},
  });
}

TEST_CASE("chance that the head crosses a break", "[derived]") {
  test::check({
      {"20/50/8, 3 m [%]", "Wilson1988", Kind::derived, 23, crossing(mild, 3), 0.5},
      {"20/50/8, 5 m [%]", "Wilson1988", Kind::derived, 4, crossing(mild, 5), 0.5},
      {"25/40/10, 3 m [%]", "Wilson1988, rounded to tens", Kind::derived, 30, crossing(warm, 3), 0.6},
      {"25/40/10, 5 m [%]", "Wilson1988", Kind::derived, 5.5, crossing(warm, 5), 0.06},
      {"30/25/20, 3 m [%]", "Wilson1988", Kind::derived, 63, crossing(dry, 3), 0.5},
      {"30/25/20, 5 m [%]", "Wilson1988", Kind::derived, 19, crossing(dry, 5), 0.5},
      {"30/25/20, 10 m [%]", "Wilson1988", Kind::derived, 0.2, crossing(dry, 10), 0.05},
      {"30/25/20, 10 m, trees [%]", "Wilson1988", Kind::derived, 43, crossing(dry, 10, true), 0.8},
      {"35/15/40, 3 m [%]", "Wilson1988", Kind::derived, 97, crossing(fierce, 3), 0.5},
      {"35/15/40, 5 m [%]", "Wilson1988", Kind::derived, 81, crossing(fierce, 5), 0.5},
      {"35/15/40, 10 m [%]", "Wilson1988", Kind::derived, 2.9, crossing(fierce, 10), 0.06},
  });
}

TEST_CASE("spread in short grass by the other equation", "[recalled]") {
  constexpr double km_h_per_mph = 1.609344, chains_per_km = 1000.0 / 20.1168;
  const double spread = short_grass_spread_km_h(8.0, 5.0 * km_h_per_mph) * chains_per_km;
  test::check(
      {{"fuel model 1, 8 %, 5 mph [chain/h]", "Rothermel1972", Kind::derived, 77.5, spread, 0.3},
       {"the same as listed [chain/h]", "Rothermel1972, Anderson 1982", Kind::recalled, 78.0, spread, 3.9}});
  CHECK(short_grass_spread_km_h(12.0, 20.0) == 0.0);
  CHECK(short_grass_spread_km_h(30.0, 20.0) == 0.0);
  for (const double wind : {0.0, 5.0, 20.0})
    CHECK(short_grass_spread_km_h(5.0, wind) > short_grass_spread_km_h(9.0, wind));
}

TEST_CASE("grass danger index Mk 5", "[derived]") {
  const GrassDanger usual = grass_danger(dry, 100.0, 4.5);
  test::check({
      {"moisture 30/25 [%]", "Noble1980", Kind::derived, 5.320, usual.moisture_percent, 0.0005},
      {"index 30/25/20, 4.5 t/ha", "Noble1980", Kind::derived, 20.94, usual.index, 0.005},
      {"index 40/15/55", "Noble1980", Kind::derived, 102.7, grass_danger({40, 15, 55}, 100.0, 4.5).index,
       0.05},
      {"index 35/20/30", "Noble1980", Kind::derived, 34.7, grass_danger({35, 20, 30}, 100.0, 4.5).index,
       0.05},
      {"the branches meet at 18.8 %", "Noble1980", Kind::identity, grass_danger_index(18.8, 0.0, 1.0),
       grass_danger_index(18.8 - 1e-9, 0.0, 1.0), 2e-5},
      {"above 30 % nothing", "Noble1980", Kind::identity, 0.0, grass_danger_index(30.0, 20.0, 4.5), 0.0},
  });
}

TEST_CASE("laws of the cautions", "[identity]") {
  for (double wind = 0.0; wind < 45.0; wind += 5.0) {
    const FireWeather w{25, 35, wind}, windier{25, 35, wind + 5.0}, damper{25, 60, wind};
    CHECK(head_spread_km_h(Pasture::cut, w, 100) < head_spread_km_h(Pasture::cut, windier, 100));
    CHECK(head_spread_km_h(Pasture::cut, w, 100) > head_spread_km_h(Pasture::cut, damper, 100));
    CHECK(head_spread_km_h(Pasture::cut, w, 100) <= head_spread_km_h(Pasture::natural, w, 100));
    CHECK(head_spread_km_h(Pasture::eaten_out, w, 100) <= head_spread_km_h(Pasture::cut, w, 100));
    CHECK(crossing(w, 3.0) > crossing(w, 4.0));
    CHECK(crossing(w, 3.0, true) > crossing(w, 3.0));
    CHECK(back_to_head(wind) <= 1.0);
  }
  CHECK(curing_factor(19.9) == 0.0);
  CHECK(curing_factor(100.0) == Approx(1.0).margin(0.02));
  CHECK(head_spread_km_h(Pasture::cut, {25, 35, 10}, 10.0) == 0.0);
  CHECK(front_intensity_kw_per_m(KgPerHa{6000.0}, 2.0) ==
        Approx(2.0 * front_intensity_kw_per_m(three_tonnes, 2.0)));
}
