#include "aftercut/straw/load.hpp"

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::straw;
using aftercut::test::check;
using aftercut::test::Kind;

namespace {
KgPerHa grain_of_nine_tonnes() { return dry_grain(KgPerHa{9200.0}, Fraction{0.14}); }
}  // namespace

TEST_CASE("Straw from 9.2 t/ha of grain at 14 % moisture", "[derived]") {
  const KgPerHa grain = grain_of_nine_tonnes();
  const char* source = "definition of the harvest index";
  check({
      {"dry grain", source, Kind::derived, 7912.0, grain.value(), 0.5},
      {"HI 0.45", source, Kind::derived, 9670.0, straw_load(grain, Fraction{0.45}).value(), 5.0},
      {"HI 0.50", source, Kind::derived, 7910.0, straw_load(grain, Fraction{0.50}).value(), 5.0},
      {"HI 0.53", source, Kind::derived, 7020.0, straw_load(grain, Fraction{0.53}).value(), 10.0},
      {"HI 0.55", source, Kind::derived, 6470.0, straw_load(grain, Fraction{0.55}).value(), 5.0},
      {"HI 0.53 against straw weighed before winter, to 0.05 t", "Linquist2006", Kind::published, 7000.0,
       straw_load(grain, Fraction{0.53}).value(), 50.0},
      {"IPCC line on 9.2 t/ha fresh at dry share 0.89", "IPCC2006 Table 11.2 (recalled)", Kind::recalled,
       10240.0, straw_load_ipcc(dry_grain(KgPerHa{9200.0}, Fraction{0.11})).value(), 5.0},
  });
}

TEST_CASE("The ratio of 12 t grain to 15 t straw is a harvest index of 0.444", "[published]") {
  check({{"Australia, high yield", "GibbsBraithwaite2013", Kind::published, 15000.0,
          straw_load(KgPerHa{12000.0}, Fraction{12.0 / 27.0}).value(), 500.0},
         {"Extremadura, 11 varieties: HI 0.50 gives 1.00 of straw to grain", "Matias2019", Kind::published,
          1.00, straw_load(KgPerHa{9700.0}, Fraction{0.50}).value() / 9700.0, 0.005}});
}

TEST_CASE("Stubble share against cutting height", "[derived]") {
  const char* source = "Lu2017, curve by us";
  check({{"5 cm", source, Kind::derived, 0.215, stubble_share(5.0).value(), 0.001},
         {"10.1 cm", source, Kind::derived, 0.310, stubble_share(10.1).value(), 0.001},
         {"28.7 cm", source, Kind::derived, 0.535, stubble_share(28.7).value(), 0.001},
         {"the whole crop", source, Kind::derived, 1.0, stubble_share(95.2).value(), 1e-9},
         {"a crop of 110 cm cut at 110/95.2 x 28.7 cm", source, Kind::derived, stubble_share(28.7).value(),
          stubble_share(110.0 / 95.2 * 28.7, 110.0).value(), 1e-9}});
}

TEST_CASE("Stubble shares lie in the measured bands", "[published]") {
  // Middle of each band, half its width as tolerance. Source: Lu2017 (read).
  check({{"5.0 cm: 18 to 25 %", "Lu2017", Kind::published, 0.215, stubble_share(5.0).value(), 0.035},
         {"10.1 cm: 25 to 32 %", "Lu2017", Kind::published, 0.285, stubble_share(10.1).value(), 0.035},
         {"28.7 cm: 47 to 60 %", "Lu2017", Kind::published, 0.535, stubble_share(28.7).value(), 0.065}});
}

TEST_CASE("A higher cut leaves more stubble, up to all of it", "[identity]") {
  for (double h = 0.0; h < 95.0; h += 5.0) CHECK(stubble_share(h + 5.0) > stubble_share(h));
  CHECK(stubble_share(0.0).value() == 0.0);
  CHECK(stubble_share(-3.0).value() == 0.0);
  CHECK(stubble_share(300.0).value() == 1.0);
}

TEST_CASE("A higher harvest index leaves less straw; impossible ones are refused", "[identity]") {
  const KgPerHa grain = grain_of_nine_tonnes();
  for (double hi = 0.35; hi < 0.65; hi += 0.05)
    CHECK(straw_load(grain, Fraction{hi + 0.05}) < straw_load(grain, Fraction{hi}));
  CHECK(straw_load(KgPerHa{0.0}, Fraction{0.5}).value() == 0.0);
  CHECK_THROWS_AS(straw_load(grain, Fraction{0.0}), InternalError);
  CHECK_THROWS_AS(straw_load(grain, Fraction{1.0}), InternalError);
  CHECK_THROWS_AS(dry_grain(KgPerHa{9000.0}, Fraction{1.0}), InternalError);
  CHECK_THROWS_AS(stubble_share(20.0, 0.0), InternalError);
}
