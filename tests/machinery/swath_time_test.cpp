#include "aftercut/machinery/swath_time.hpp"

#include <cmath>
#include <numbers>

#include "aftercut/core/require.hpp"
#include "aftercut/geo/layer.hpp"
#include "aftercut/geo/swaths.hpp"
#include "catch2/catch.hpp"
#include "metres.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::machinery;
using test::check;
using test::Kind;
using test::metres_corner;
using test::path_in_metres;

namespace {

/// 400 x 200 m, worked 6 m wide at 8 km/h, turned at 5 km/h with a radius of 6 m; corners of the rounds cost
/// nothing.
const SwathMachine disk{
    .width = Metre{6.0}, .speed = KmPerHour{8.0}, .headland_rounds = 2, .turning = {.corner_s = 0.0}};

}  // namespace

TEST_CASE("turns of a machine of 6 m with a radius of 6 m", "[derived]") {
  const char* source = "BochtisVougioukas2008, our arithmetic";
  check(
      {{"bulb", source, Kind::derived, 36.195, bulb_turn(Metre{6.0}, Metre{6.0}).value(), 0.0005},
       {"fishtail", "geometry", Kind::derived, 24.850, fishtail_turn(Metre{6.0}, Metre{6.0}).value(), 0.0005},
       {"half circle, 14 m", source, Kind::derived, 20.850, half_circle_turn(Metre{6.0}, Metre{14.0}).value(),
        0.0005},
       {"bulb to a pass two radii off is the half circle", source, Kind::identity, 6.0 * std::numbers::pi,
        bulb_turn(Metre{6.0}, Metre{12.0}).value(), 1e-9},
       {"bulb back onto the same pass", source, Kind::identity, 14.0 * std::numbers::pi,
        bulb_turn(Metre{6.0}, Metre{0.0}).value(), 1e-9}});
  CHECK_THROWS_AS(bulb_turn(Metre{6.0}, Metre{12.1}), InternalError);
  CHECK_THROWS_AS(half_circle_turn(Metre{6.0}, Metre{11.9}), InternalError);
  CHECK_THROWS_AS(fishtail_turn(Metre{0.0}, Metre{6.0}), InternalError);
}

TEST_CASE("the quicker turn weighs the stops of a fishtail against a longer way", "[identity]") {
  Turning loop, fishtail, quicker;
  fishtail.manner = Turn::fishtail;
  quicker.manner = Turn::quicker;
  for (const double stop_s : {0.0, 4.0, 20.0}) {
    loop.direction_change_s = fishtail.direction_change_s = quicker.direction_change_s = stop_s;
    const Metre w{6.0};
    CHECK(turn_time(quicker, w) == std::min(turn_time(loop, w), turn_time(fishtail, w)));
  }
  CHECK(turn_time(fishtail, Metre{6.0}) > turn_time(loop, Metre{6.0}));
}

TEST_CASE("a rectangle of 400 by 200 m, along either side", "[derived]") {
  const geo::SwathGround ground{geo::rectangle(metres_corner, Hectare{8.0}, 2.0), 6.0, 2};
  const SwathTime along = time_along(ground, disk, 90.0), across = time_along(ground, disk, 0.0);
  const char* source = "our arithmetic, machinery geometry";
  check({{"passes along 400 m", source, Kind::derived, 30.0, static_cast<double>(along.sums.passes), 0.0},
         {"passes along 200 m", source, Kind::derived, 63.0, static_cast<double>(across.sums.passes), 0.0},
         {"headland [m]", source, Kind::derived, 2304.0, along.sums.headland_m, 2.304},
         {"working along 400 m [m]", source, Kind::derived, 13584.0, along.working_m, 13.6},
         {"working along 200 m [m]", source, Kind::derived, 13392.0, across.working_m, 13.4},
         {"turns along 400 m [m]", source, Kind::derived, 1049.7, along.turning_m, 1.1},
         {"turns along 200 m [m]", source, Kind::derived, 2244.1, across.turning_m, 2.3},
         {"hours along 400 m", source, Kind::derived, 1.9079, along.hours.value(), 0.0019},
         {"hours along 200 m", source, Kind::derived, 2.1228, across.hours.value(), 0.0021},
         {"efficiency along 400 m", source, Kind::derived, 0.8735, along.field_efficiency, 0.0009},
         {"efficiency along 200 m", source, Kind::derived, 0.7851, across.field_efficiency, 0.0008}});
  const SwathTime best = best_swaths(ground, disk);
  CHECK(best.hours.value() <= along.hours.value());
  CHECK(best.heading_deg == Approx(90.0).margin(0.5));
  const geo::Coverage c = ground.coverage(ground.lay(best.heading_deg));
  CHECK(c.worked_share() > 0.999);
  CHECK(c.overlap_share() < 0.03);
}

TEST_CASE("a width of which the field is an exact multiple takes no further pass", "[identity]") {
  const geo::Shape field = geo::rectangle(metres_corner, Hectare{8.0}, 2.0);
  CHECK(geo::SwathGround{field, 8.0, 0}.measure(90.0).passes == 25);
  CHECK(geo::SwathGround{field, 10.0, 0}.measure(0.0).passes == 40);
}

TEST_CASE("a hole splits the passes into blocks, and is not worked", "[identity]") {
  geo::Polygon field{path_in_metres({{0, 0}, {400, 0}, {400, 300}, {0, 300}, {0, 0}}),
                     {path_in_metres({{150, 100}, {150, 200}, {250, 200}, {250, 100}, {150, 100}})}};
  const geo::SwathGround ground{geo::Shape{{field}, {}, {}}, 6.0, 2};
  const SwathTime t = time_along(ground, disk, 90.0);
  CHECK(t.sums.blocks == 4);  // below the hole, on each side of it, above it
  CHECK(t.sums.between_blocks_m > 0.0);
  const geo::Coverage c = ground.coverage(ground.lay(t.heading_deg));
  CHECK(c.worked_share() > 0.995);
  CHECK(c.worked_m2 <= c.field_m2 + 1e-6);
  geo::Polygon whole = field;
  whole.holes.clear();
  CHECK(time_along(geo::SwathGround{geo::Shape{{whole}, {}, {}}, 6.0, 2}, disk, 90.0).field_efficiency >
        t.field_efficiency);
}

TEST_CASE("a bent field is worked along its longer arm, all of it", "[identity]") {
  const geo::Polygon bent{
      path_in_metres({{0, 0}, {600, 0}, {600, 150}, {150, 150}, {150, 300}, {0, 300}, {0, 0}}), {}};
  const geo::SwathGround ground{geo::Shape{{bent}, {}, {}}, 6.0, 2};
  const SwathTime best = best_swaths(ground, disk);
  CHECK(best.heading_deg == Approx(90.0).margin(1.0));
  CHECK(best.sums.blocks <= 3);
  CHECK(ground.coverage(ground.lay(best.heading_deg)).worked_share() > 0.995);
}

TEST_CASE("a strip narrower than its headland has rounds or nothing, and no hours out of the blue",
          "[identity]") {
  const geo::SwathGround strip{
      geo::Shape{{{path_in_metres({{0, 0}, {300, 0}, {300, 20}, {0, 20}, {0, 0}}), {}}}, {}, {}}, 6.0, 2};
  const SwathTime t = best_swaths(strip, disk);
  CHECK(t.sums.passes == 0);
  CHECK(t.working_m > 500.0);
  CHECK(t.turning_m == 0.0);
  CHECK_THROWS_AS((geo::SwathGround{geo::Shape{}, 6.0, 2}), InternalError);
}

TEST_CASE("each field of the demo is worked to 99 %, whatever its shape", "[identity]") {
  const auto layer =
      geo::read_layer(std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields/demo/fields.geojson");
  REQUIRE(layer);
  for (const auto& feature : layer.value().features) {
    if (feature.shape.polygons.empty()) continue;
    const geo::SwathGround ground{feature.shape, 6.0, 2};
    const SwathTime best = best_swaths(ground, disk);
    const geo::Coverage c = ground.coverage(ground.lay(best.heading_deg));
    CAPTURE(feature.row, best.heading_deg, best.sums.blocks, c.overlap_share());
    CHECK(c.worked_share() >= 0.99);
    CHECK(c.worked_share() <= 1.0 + 1e-9);
    CHECK(c.overlap_share() >= -1e-9);
    CHECK(best.field_efficiency > 0.4);
    CHECK(best.field_efficiency < 1.0);
    for (const double heading : {0.0, 45.0, 90.0, 135.0})
      CHECK(best.hours.value() <= time_along(ground, disk, heading).hours.value() * 1.02);
  }
}
