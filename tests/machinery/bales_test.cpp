// Bales, loads and twine.
#include "aftercut/machinery/bales.hpp"

#include "aftercut/core/require.hpp"
#include "aftercut/machinery/capacity.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::machinery;
using test::Kind;

TEST_CASE("a rice straw bale", "[published]") {
  const BaleSettings b;
  // 0.9 x 1.2 x 2.4 m and about 400 kg are read; the rest is arithmetic.
  test::check(
      {{"density [kg/m3]", "Blunk2003, our arithmetic", Kind::derived, 154.0, bale_density_kg_m3(b), 0.5},
       {"a load of 36 [t]", "BaleLoad, our arithmetic", Kind::derived, 14.4,
        b.per_load * b.mass.value() / 1000.0, 1e-9},
       {"twine of a bale [m]", "BaleTwine", Kind::recalled, 43.0, twine_of_a_bale(b).value(), 0.5},
       {"bale of a 1999 harvest [kg]", "CARB2000: 5500 short tons in 11 000 bales", Kind::derived, 454.0,
        5500.0 * 907.18474 / 11000.0, 0.5}});
}

TEST_CASE("ten hectares of 5 t at 12 % moisture", "[derived]") {
  const BaleSettings b;
  const int bales = bales_of(Kilogram{10.0 * 5000.0}, b);
  const BaleLoads loads = loads_of(bales, b);
  // 13 t/h over 5 t/ha as baled; the area rate of a baler is far above it.
  const double hours =
      10.0 / capped_by_throughput(HaPerHour{6.0}, TonnePerHour{13.0}, KgPerHa{5000.0}).value();
  const char* source = "our arithmetic, Blunk2003 bale";
  test::check({{"bales", source, Kind::derived, 125.0, static_cast<double>(bales), 0.0},
               {"dry matter [t]", source, Kind::derived, 44.0, 50.0 * bale_dry_share, 1e-9},
               {"hours at 13 t/h", source, Kind::derived, 3.846, hours, 0.0005},
               {"loads of 36", source, Kind::derived, 4.0, static_cast<double>(loads.loads), 0.0},
               {"twine [m]", source, Kind::derived, 125.0 * 42.6, loads.twine.value(), 1e-6}});
}

TEST_CASE("a bale begun is a bale, a load begun is a load", "[identity]") {
  const BaleSettings b;
  CHECK(bales_of(Kilogram{0.0}, b) == 0);
  CHECK(bales_of(Kilogram{0.1}, b) == 1);
  CHECK(bales_of(Kilogram{400.0}, b) == 1);
  CHECK(bales_of(Kilogram{3.0 * 400.0 + 1e-9}, b) == 3);  // an exact multiple begins none
  CHECK(bales_of(Kilogram{400.1}, b) == 2);
  CHECK(loads_of(0, b).loads == 0);
  CHECK(loads_of(36, b).loads == 1);
  CHECK(loads_of(37, b).loads == 2);
  BaleSettings broken;
  broken.mass = Kilogram{0.0};
  CHECK_THROWS_AS(bales_of(Kilogram{1.0}, broken), InternalError);
  CHECK_THROWS_AS(loads_of(-1, b), InternalError);
}
