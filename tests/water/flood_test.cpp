// Volumes, needs and days of flow.
#include "aftercut/water/flood.hpp"

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::water;
using test::Kind;

TEST_CASE("volumes by definition", "[derived]") {
  constexpr double ha_per_acre = 0.40468564224;
  test::check({
      {"100 mm on 1 ha [m3]", "definition", Kind::derived, 1000.0,
       volume(Millimetre{100}, Hectare{1}).value(), 1e-9},
      {"1 ft on 1 ha [m3]", "AcreFoot", Kind::derived, 3048.0, volume(Millimetre{304.8}, Hectare{1}).value(),
       1e-9},
      {"1 ft on 1 acre [acre-feet]", "AcreFoot", Kind::derived, 1.0,
       acre_feet(volume(Millimetre{304.8}, Hectare{ha_per_acre})), 1e-8},
      {"4 in on 40 acres [acre-feet]", "AcreFoot", Kind::derived, 40.0 / 3,
       acre_feet(volume(Millimetre{101.6}, Hectare{40 * ha_per_acre})), 1e-6},
      {"1233.48184 m3 [acre-feet]", "AcreFoot", Kind::derived, 1.0, acre_feet(CubicMetre{1233.48184}), 1e-12},
  });
}

TEST_CASE("depth is volume backwards", "[identity]") {
  for (const double mm : {0.0, 12.5, 150.0})
    CHECK(depth(volume(Millimetre{mm}, Hectare{23.7}), Hectare{23.7}).value() == Approx(mm));
  CHECK_THROWS_AS(depth(CubicMetre{10}, Hectare{0}), InternalError);
}

TEST_CASE("need counts the soil first and what stands already", "[identity]") {
  CHECK(fill_need(Millimetre{100}, Millimetre{0}, Millimetre{60}) == Millimetre{160});
  CHECK(fill_need(Millimetre{100}, Millimetre{30}, Millimetre{0}) == Millimetre{70});
  CHECK(fill_need(Millimetre{100}, Millimetre{130}, Millimetre{0}) == Millimetre{0});
  CHECK(fill_need(Millimetre{100}, Millimetre{130}, Millimetre{40}) ==
        Millimetre{10});  // the surplus soaks in
  CHECK(fill_need(Millimetre{0}, Millimetre{0}, Millimetre{0}) == Millimetre{0});
}

TEST_CASE("days of flow are whole days", "[identity]") {
  CHECK(fill_days(CubicMetre{0}, CubicMetrePerDay{0}) == 0);
  CHECK(fill_days(CubicMetre{-5}, CubicMetrePerDay{100}) == 0);
  CHECK(fill_days(CubicMetre{1}, CubicMetrePerDay{1000}) == 1);
  CHECK(fill_days(CubicMetre{3000}, CubicMetrePerDay{1000}) == 3);
  CHECK(fill_days(CubicMetre{3000.001}, CubicMetrePerDay{1000}) == 4);
  CHECK(fill_days(CubicMetre{0.1 * 30}, CubicMetrePerDay{0.1}) == 30);  // rounding adds no day
  CHECK_THROWS_AS(fill_days(CubicMetre{1}, CubicMetrePerDay{0}), InternalError);
}

TEST_CASE("a field that fills in known time", "[derived]") {
  // 16 ha, 160 mm, 2 cubic feet a second (4893.15 m3/d): 25 600 m3, 5.23 days.
  const CubicMetre need = volume(fill_need(Millimetre{100}, Millimetre{0}, Millimetre{60}), Hectare{16});
  CHECK(need == CubicMetre{25600});
  CHECK(fill_days(need, CubicMetrePerDay{2 * 0.028316846592 * 86400}) == 6);
}
