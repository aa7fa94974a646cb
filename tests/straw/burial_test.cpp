#include "aftercut/straw/burial.hpp"

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::straw;
using aftercut::test::check;
using aftercut::test::Kind;

namespace {

constexpr double disk = 0.65, usual_cm = 15.0, short_mm = 80.0;

double at_depth(double cm, const BurialSettings& s = {}) {
  return buried_share(disk, usual_cm, cm, short_mm, s);
}

}  // namespace

TEST_CASE("Three inches less depth keep 4 to 11 points more of the straw on top", "[published]") {
  constexpr double inch = 2.54;
  const double points = 100.0 * (at_depth(6.0 * inch) - at_depth(3.0 * inch));
  check({{"from 6 to 3 in, middle of the range", "BurialDepth (read)", Kind::published, 7.5, points, 3.5}});
  BurialSettings low, high;
  low.per_cm = 0.04 / (3.0 * inch);
  high.per_cm = 0.11 / (3.0 * inch);
  CHECK(low.per_cm == Catch::Detail::Approx(0.005).margin(0.0003));
  CHECK(high.per_cm == Catch::Detail::Approx(0.014).margin(0.0005));
}

TEST_CASE("A tool at its usual depth in short straw buries its table share", "[identity]") {
  CHECK(at_depth(usual_cm) == disk);
  CHECK(at_depth(0.0) == disk);                                   // the tool does not say
  CHECK(buried_share(0.1, 0.0, 5.0, 300.0, {}) == 0.1);           // a roller: as it stands
  CHECK(buried_share(0.0, usual_cm, 25.0, short_mm, {}) == 0.0);  // it buries nothing
}

TEST_CASE("Deeper buries more, and a share stays a share", "[identity]") {
  double before = 0.0;
  for (double cm = 1.0; cm <= 60.0; cm += 1.0) {
    const double share = at_depth(cm);
    CHECK(share >= before);
    CHECK(share <= 1.0);
    before = share;
  }
  CHECK(at_depth(30.0) == at_depth(60.0));  // outside the range of the rule
  BurialSettings steep;
  steep.per_cm = 0.05;
  CHECK(at_depth(30.0, steep) == 1.0);
  CHECK(buried_share(0.3, 20.0, 3.0, short_mm, steep) == 0.0);
}

TEST_CASE("Long straw goes under less well and wants more passes", "[derived]") {
  const BurialSettings s;
  const char* source = "LongStraw (assumed)";
  check(
      {{"38 mm", source, Kind::derived, disk, buried_share(disk, usual_cm, usual_cm, 38.0, s), 1e-12},
       {"102 mm", source, Kind::derived, disk, buried_share(disk, usual_cm, usual_cm, 102.0, s), 1e-12},
       {"201 mm", source, Kind::derived, 0.9 * disk, buried_share(disk, usual_cm, usual_cm, 201.0, s), 1e-12},
       {"300 mm", source, Kind::derived, 0.8 * disk, buried_share(disk, usual_cm, usual_cm, 300.0, s), 1e-12},
       {"600 mm", source, Kind::derived, 0.8 * disk, buried_share(disk, usual_cm, usual_cm, 600.0, s), 1e-12},
       {"4000 kg/ha of 300 mm", source, Kind::derived, 4400.0, straw_for_passes(4000.0, 300.0, s), 1e-9},
       {"4000 kg/ha of 80 mm", source, Kind::derived, 4000.0, straw_for_passes(4000.0, 80.0, s), 1e-9}});
}

TEST_CASE("Length after the combine is weighted by mass", "[identity]") {
  const BurialSettings s;
  CHECK(length_after_combine(30.0, 0.5, true, s) == Catch::Detail::Approx(0.5 * 300.0 + 0.5 * 100.0));
  CHECK(length_after_combine(20.0, 0.25, false, s) == Catch::Detail::Approx(0.25 * 200.0 + 0.75 * 300.0));
  CHECK(length_after_combine(0.0, 0.0, true, s) == s.combine_chop_mm);
  CHECK_THROWS_AS(length_after_combine(30.0, 1.5, true, s), InternalError);
}
