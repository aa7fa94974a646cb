#include "aftercut/soil/temperature.hpp"

#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::soil;
using aftercut::test::check;
using aftercut::test::Kind;

TEST_CASE("Running mean and bare-soil line", "[derived]") {
  const TemperatureSettings s;
  const char* source = "SoilTemperatureFit, our arithmetic";
  check({
      {"running mean 10 C, air 20 C", source, Kind::derived, 11.8, next_running_mean(10.0, 20.0, false, s),
       1e-9},
      {"the same under water", source, Kind::derived, 10.9, next_running_mean(10.0, 20.0, true, s), 1e-9},
      {"bare soil at a running mean of 12 C", source, Kind::derived, 14.056,
       soil_temperature(12.0, 0.0, false, s), 1e-9},
      {"half covered", source, Kind::derived, 13.028, soil_temperature(12.0, 0.5, false, s), 1e-9},
      {"fully covered", source, Kind::derived, 12.0, soil_temperature(12.0, 1.0, false, s), 1e-9},
      {"under water", source, Kind::derived, 12.0, soil_temperature(12.0, 0.0, true, s), 1e-9},
  });
}

TEST_CASE("The running mean comes to steady air and never leaves the range of the air", "[identity]") {
  const TemperatureSettings s;
  double t = 0.0;
  for (int day = 0; day < 200; ++day) {
    const double before = t;
    t = next_running_mean(t, 15.0, day % 3 == 0, s);
    CHECK(t >= before);
    CHECK(t <= 15.0);
  }
  CHECK(t == Approx(15.0).margin(1e-6));
}
