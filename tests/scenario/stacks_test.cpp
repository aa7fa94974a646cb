// Stack plans of the small farm: which field goes where, and what is wrong with a place.

#include "aftercut/scenario/stacks.hpp"

#include <algorithm>
#include <cmath>

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
  CHECK(plan.stacks[0].hauls.front().metres == ways[0][0]);
  f.stacking.rules.detour = 2.6;
  CHECK(scenario::ways_to_stacks(f)[0][0] == Approx(2.0 * ways[0][0]));
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
