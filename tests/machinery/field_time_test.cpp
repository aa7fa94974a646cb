#include "aftercut/machinery/field_time.hpp"

#include "aftercut/geo/swaths.hpp"
#include "aftercut/machinery/machines.hpp"
#include "catch2/catch.hpp"
#include "metres.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::machinery;
using test::check;
using test::field_in_metres;
using test::Kind;
using test::metres_corner;
using test::path_in_metres;

namespace {

const SwathMachine field_disk{
    .width = Metre{6.0}, .speed = KmPerHour{8.0}, .headland_rounds = 2, .turning = {}};

}  // namespace

TEST_CASE("a rectangle of 400 by 200 m is one piece, and its hours are those of its passes", "[derived]") {
  SwathMachine no_corners = field_disk;
  no_corners.turning.corner_s = 0.0;
  const geo::Shape whole = geo::rectangle(metres_corner, Hectare{8.0}, 2.0);
  const FieldTime t = time_on_field(whole, {}, no_corners),
                  with_corners = time_on_field(whole, {}, field_disk);
  REQUIRE(t.pieces.size() == 1);
  CHECK(t.checks == 1);
  check({{"hours", "our arithmetic, machinery geometry", Kind::derived, 1.9079, t.hours.value(), 0.0019},
         {"efficiency", "our arithmetic, machinery geometry", Kind::derived, 0.8735, t.field_efficiency,
          0.0009},
         {"efficiency with 8 % of stops: the disk's typical 0.80", "StopsShare", Kind::derived, 0.80,
          with_corners.field_efficiency * (1.0 - Implement{}.stops.value()), 0.006},
         {"eight corners of ten seconds", "CornerTime", Kind::identity, 80.0 / 3600.0,
          with_corners.hours.value() - t.hours.value(), 1e-9}});
}

TEST_CASE("checks add up, and each levee costs passes, turns and two minutes", "[identity]") {
  const geo::Shape whole = field_in_metres({{0, 0}, {400, 0}, {400, 200}, {0, 200}, {0, 0}});
  const geo::Path levee = path_in_metres({{0, 100}, {400, 100}});
  const FieldTime open = time_on_field(whole, {}, field_disk),
                  parted = time_on_field(whole, {levee}, field_disk);
  REQUIRE(parted.pieces.size() == 2);
  CHECK(parted.checks == 2);
  const double alone = parted.pieces[0].time.hours.value() + parted.pieces[1].time.hours.value();
  CHECK(parted.hours.value() == Approx(alone + 2.0 / 60.0));
  CHECK(parted.hours > open.hours);
  CHECK(parted.field_efficiency < open.field_efficiency);
  CHECK(parted.working_m == Approx(parted.pieces[0].time.working_m + parted.pieces[1].time.working_m));
  CHECK(parted.passes == parted.pieces[0].time.sums.passes + parted.pieces[1].time.sums.passes);
}

TEST_CASE("a bent field is cut in two only where that takes fewer hours", "[identity]") {
  // Long arms: one heading would make hundreds of short passes of one of them.
  const geo::Shape long_arms =
      field_in_metres({{0, 0}, {900, 0}, {900, 60}, {60, 60}, {60, 900}, {0, 900}, {0, 0}});
  const FieldTime t = time_on_field(long_arms, {}, field_disk);
  CHECK(t.pieces.size() == 2);
  CHECK(t.checks == 1);
  const SwathTime whole = best_swaths({long_arms, 6.0, 2}, field_disk);
  CHECK(t.hours < whole.hours);
  const geo::Shape dented =
      field_in_metres({{0, 0}, {600, 0}, {600, 290}, {570, 290}, {570, 300}, {0, 300}, {0, 0}});
  const FieldTime one = time_on_field(dented, {}, field_disk);
  CHECK(one.hours <= best_swaths({dented, 6.0, 2}, field_disk).hours);
  CHECK(one.pieces.size() == 1);
}

TEST_CASE("a field of narrow checks takes longer for each hectare than a wide one", "[identity]") {
  const geo::Shape whole = field_in_metres({{0, 0}, {400, 0}, {400, 240}, {0, 240}, {0, 0}});
  double before = 1.0;
  for (const int levees : {0, 1, 3, 5}) {
    std::vector<geo::Path> lines;
    for (int k = 1; k <= levees; ++k) {
      const double y = 240.0 * k / (levees + 1);
      lines.push_back(path_in_metres({{0, y}, {400, y}}));
    }
    const FieldTime t = time_on_field(whole, lines, field_disk);
    CHECK(t.checks == levees + 1);
    CHECK(t.field_efficiency < before);
    before = t.field_efficiency;
  }
}
