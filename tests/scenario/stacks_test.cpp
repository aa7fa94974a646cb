// Stack plans of the small farm: which field goes where, and what is wrong with a place.

#include "aftercut/scenario/stacks.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "aftercut/geo/shape.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

farm::StackPlace point(const char* id, double x, double y, std::optional<int> bales = {}) {
  return {id, {{}, {}, {{x, y}}}, bales, farm::StackCover::none};
}

bool tells(const std::vector<std::string>& troubles, const std::string& part) {
  return std::any_of(troubles.begin(), troubles.end(),
                     [&](const std::string& t) { return t.find(part) != std::string::npos; });
}

std::vector<plan::Spread> each(double p50, double p90) {
  return std::vector<plan::Spread>(5, plan::Spread{p50, p50, p90});
}

}  // namespace

TEST_CASE("fields go to the nearest stack with room, by the year with most bales", "[identity]") {
  farm::Farm f = small_farm();
  f.stacking.places = {point("W", -121.903, 39.302, 150), point("E", -121.875, 39.295)};
  const auto plan = scenario::plan_stacks(f, each(80.0, 100.0), false);
  REQUIRE(plan.stacks.size() == 2);
  CHECK(plan.stacks[0].bales == 150);
  CHECK(plan.stacks[0].bales + plan.stacks[1].bales == 500);
  CHECK(plan.stacks[0].usual_bales == Approx(120.0));
  CHECK(plan.stacks[0].hauls.front().field == 0);
  CHECK(plan.without_room == std::vector<int>(5, 0));
  // 0.9 x 1.2 x 2.4 m each.
  CHECK(plan.stacks[0].volume_m3 == Approx(150 * 2.592));
  const auto ways = scenario::ways_to_stacks(f);
  CHECK(plan.stacks[0].hauls.front().metres == ways[0][0].metres);
  f.stacking.rules.detour = 2.6;
  CHECK(scenario::ways_to_stacks(f)[0][0].metres == Approx(2.0 * ways[0][0].metres));
}

TEST_CASE("a field whose bales fit nowhere is told, and a farm without places", "[identity]") {
  farm::Farm f = small_farm();
  f.stacking.places = {point("W", -121.903, 39.302, 150)};
  const auto plan = scenario::plan_stacks(f, each(80.0, 100.0), false);
  int left = 0;
  for (const int n : plan.without_room) left += n;
  CHECK(left == 350);
  f.stacking.places.clear();
  CHECK(scenario::plan_stacks(f, each(80.0, 100.0), false).without_room == std::vector<int>(5, 100));
}

TEST_CASE("stacks too near, too big and too wet are named with numbers", "[identity]") {
  farm::Farm f = small_farm();
  // 0.0002 degrees of latitude are 22.2 m: inside 30.5 m, outside the 10 m of lines.
  f.stacking.places = {point("A", -121.910, 39.3000), point("B", -121.910, 39.3002)};
  f.places = {
      {"yard", farm::PlaceKind::home, {{}, {}, {{-121.910, 39.2998}}}},
      {"line", farm::PlaceKind::power_line, {{}, {{{-121.912, 39.29995}, {-121.908, 39.29995}}}, {}}}};
  f.bale_moisture_percent = 18.0;
  const auto plan = scenario::plan_stacks(f, each(80.0, 100.0), false);
  const auto& a = plan.stacks[0].troubles;
  CAPTURE(a);
  CHECK(tells(a, "22.2 m from stack B: 30.5 m is kept (from_stack)"));
  CHECK(tells(a, "22.2 m from home yard: 30.5 m is kept (from_home)"));
  CHECK(tells(a, "from power line line: 10.0 m is kept (from_power_line)"));
  CHECK(tells(plan.stacks[1].troubles, "22.2 m from stack A"));
  CHECK_FALSE(tells(plan.stacks[1].troubles, "home"));  // 44 m
  const auto& full = plan.stacks[0].bales > plan.stacks[1].bales ? plan.stacks[0] : plan.stacks[1];
  CHECK(full.bales > 218);  // 566 m3 / 2.592
  CHECK(tells(full.troubles, "more than one block of 566 m3"));
  CHECK(tells(plan.troubles, "18 % moisture"));
  CHECK(tells(plan.troubles, "above 17 % are not stacked"));
  f.stacking.rules = {};
  f.stacking.rules.from_stack = f.stacking.rules.from_home = Metre{20.0};
  f.stacking.rules.from_power_line = Metre{5.0};
  f.stacking.rules.most_block_m3 = 1e5;
  f.bale_moisture_percent = 14.0;
  const auto sound = scenario::plan_stacks(f, each(80.0, 100.0), false);
  CHECK(sound.stacks[0].troubles.empty());
  CHECK(sound.troubles.empty());
}

TEST_CASE("room of a pad is its ground and height in bales", "[derived]") {
  farm::Farm f = small_farm();
  // 0.1 ha holds 1000 / (2.4 x 1.2) = 347 bales on the ground, four high under 3.6 m.
  f.stacking.places = {
      {"pad", geo::rectangle({-121.91, 39.31}, Hectare{0.1}, 2.0), {}, farm::StackCover::half_open}};
  const auto plan = scenario::plan_stacks(f, each(0.0, 0.0), false);
  CHECK(plan.stacks[0].room == 4 * 347);
  check({{"a year's loss half open", "Blunk2003, middle of 10 to 20 %", Kind::derived, 0.15,
          plan.stacks[0].loss_share, 1e-9}});
}

TEST_CASE("if all straw were baled", "[derived]") {
  farm::Farm f = small_farm();
  f.fields[0].cut = true;
  f.fields[0].lay = straw::Lay::chopped;
  const auto bales = scenario::bales_if_all_baled(f);
  CHECK(bales[0].p50 == 0.0);  // chopped straw cannot be baled
  // Field 2: 12 ha, 7600 kg/ha, cut at 20 cm: stubble (20/95.2)^0.522 = 0.4429; 0.75 of the rest, 88 % dry,
  // 400 kg.
  const double tonnes = 12.0 * 7.6 * (1.0 - 0.4429) * 0.75 / 0.88;
  check({{"field 2 [bales]", "our arithmetic, Lu2017 stubble", Kind::derived, std::ceil(tonnes / 0.4),
          bales[1].p50, 0.5}});
}

// The small farm's fields 1 and 2 on their south side, a stack at each end and one more to the north:
//
//                 o N
//   +---+  +---+
//   | 1 |  | 2 |
//   +-+-+  +-+-+
//     |      |
//  o--+--xx--+--o   W and E; xx: the piece between the fields
//  W             E
namespace {

constexpr double x1 = -121.898, x2 = -121.888, road_y = 39.2995;  // middles of the fields, the road

farm::Road piece(double from, double to, farm::RoadState state) {
  return {"", state, {{from, road_y}, {to, road_y}}};
}

farm::Farm with_roads(farm::RoadState between) {
  farm::Farm f = small_farm();
  f.fields.resize(2);
  f.stacking.places = {point("E", -121.864, road_y), point("N", x1, 39.31), point("W", -121.910, road_y)};
  f.roads = farm::RoadMap{{piece(-121.910, x1, farm::RoadState::passable), piece(x1, x2, between),
                           piece(x2, -121.864, farm::RoadState::passable)},
                          {-121.910, road_y}};
  return f;
}

double apart_m(geo::Point a, geo::Point b) { return geo::distance({{}, {}, {a}}, {{}, {}, {b}}).value(); }

}  // namespace

TEST_CASE("bales go by the road, which is longer than the straight way", "[identity]") {
  const farm::Farm f = with_roads(farm::RoadState::passable);
  const auto ways = scenario::ways_to_stacks(f);
  REQUIRE(ways.size() == 2);
  // From the middle of a field south to the road, then along it.
  const double south = apart_m({x1, 39.302}, {x1, road_y});
  CHECK(ways[0][2].kind == farm::WayKind::hard_road);
  CHECK(ways[0][2].metres == Approx(south + apart_m({-121.910, road_y}, {x1, road_y})).epsilon(0.003));
  CHECK(ways[1][2].metres == Approx(south + apart_m({-121.910, road_y}, {x2, road_y})).epsilon(0.003));
  farm::Farm straight = f;
  straight.roads.reset();
  straight.stacking.rules.detour = 1.0;
  CHECK(ways[0][2].metres > scenario::ways_to_stacks(straight)[0][2].metres + 100.0);
  // No road leads to N: the straight distance and a detour hold, as without roads.
  straight.stacking.rules.detour = 1.3;
  const auto as_the_crow_flies = scenario::ways_to_stacks(straight);
  CHECK(ways[0][1] == as_the_crow_flies[0][1]);
  CHECK(as_the_crow_flies[0][1].kind == farm::WayKind::straight);
}

TEST_CASE("a closed road sends bales to another stack, a soft one takes them on dry days", "[identity]") {
  const auto plan_with = [](farm::RoadState between) {
    farm::Farm f = with_roads(between);
    f.stacking.places.erase(f.stacking.places.begin() + 1);  // E, W
    return scenario::plan_stacks(f, std::vector<plan::Spread>(2, {100.0, 100.0, 100.0}), false);
  };
  const auto stack_of_2 = [](const plan::StackPlan& p) {
    for (const auto& use : p.stacks)
      for (const auto& h : use.hauls)
        if (h.field == 1) return use.place;
    throw std::runtime_error("field 2 goes nowhere");
  };
  constexpr std::size_t east = 0, west = 1;
  const auto open = plan_with(farm::RoadState::passable);
  CHECK(open.ways[1][west].kind == farm::WayKind::hard_road);
  CHECK(stack_of_2(open) == west);
  const auto soft = plan_with(farm::RoadState::soft);  // as far, but not in any weather
  CHECK(soft.ways[1][west].kind == farm::WayKind::soft_road);
  CHECK(soft.ways[1][west].metres == Approx(open.ways[1][west].metres).epsilon(1e-6));
  CHECK(soft.ways[0][west].kind == farm::WayKind::hard_road);
  CHECK(stack_of_2(soft) == west);
  // Closed: nothing drawn joins field 2 and W any more; the road to E is shorter than straight and a detour.
  const auto closed = plan_with(farm::RoadState::closed);
  CHECK(closed.ways[1][west].kind == farm::WayKind::straight);
  CHECK(closed.ways[1][east].kind == farm::WayKind::hard_road);
  CHECK(stack_of_2(closed) == east);
}

TEST_CASE("a longer road in any weather is taken before a shorter soft one", "[identity]") {
  farm::Farm f = with_roads(farm::RoadState::soft);
  const double by_soft = scenario::ways_to_stacks(f)[1][2].metres;
  constexpr double loop_y = 39.297;
  f.roads->roads.push_back(
      {"loop", farm::RoadState::passable, {{x1, road_y}, {x1, loop_y}, {x2, loop_y}, {x2, road_y}}});
  const auto way = scenario::ways_to_stacks(f)[1][2];
  CHECK(way.kind == farm::WayKind::hard_road);
  CHECK(way.metres == Approx(by_soft + 2.0 * apart_m({x1, road_y}, {x1, loop_y})).epsilon(0.003));
}

TEST_CASE("a stack beside the field takes its bales straight", "[identity]") {
  farm::Farm f = with_roads(farm::RoadState::passable);
  f.stacking.places = {point("corner", -121.9001, 39.302)};  // 9 m from field 1
  const auto way = scenario::ways_to_stacks(f)[0][0];
  CHECK(way.kind == farm::WayKind::beside);
  CHECK(way.metres ==
        Approx(geo::distance({{}, {}, {{x1, 39.302}}}, f.stacking.places[0].shape).value()).epsilon(0.002));
}
