// What is printed of the ways to stacks: by which kind of way, and what the marks mean.
#include "aftercut/report/stacks.hpp"

#include "catch2/catch.hpp"
#include "sample_farm.hpp"

using namespace aftercut;

namespace {

/// Field 1 hauls 12 bales to a stack by a way of this kind, field 2 ten by a road.
std::string text_with(farm::WayKind kind, bool roads, farm::UnitSystem units = farm::UnitSystem::si) {
  farm::Farm farm = test::sample(units).problem.farm;
  farm.stacking.places = {{"pad", {{}, {}, {{-121.9, 39.3}}}, {}, farm::StackCover::none}};
  if (roads) farm.roads = farm::RoadMap{};
  plan::StackPlan plan;
  plan.bales.assign(farm.fields.size(), {});
  plan.bales[0] = {12.0, 12.0, 12.0};
  plan.bales[1] = {10.0, 10.0, 10.0};
  plan.ways.assign(farm.fields.size(), {farm::StackWay{}});
  plan.ways[0][0] = {1600.0, kind};
  plan.ways[1][0] = {2400.0, roads ? farm::WayKind::hard_road : farm::WayKind::straight};
  plan.stacks = {
      {.place = 0, .hauls = {{0, 0, 12, 1600.0}, {1, 0, 10, 2400.0}}, .usual_bales = 22.0, .bales = 22}};
  return report::stacks_text(farm, plan);
}

bool prints(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("the ways to the stacks say by what they go", "[identity]") {
  const std::string hard = text_with(farm::WayKind::hard_road, true);
  INFO(hard);
  CHECK(prints(hard, "from 1 (12, 1.6 km), 2 (10, 2.4 km)\n"));
  CHECK(prints(hard, "Ways: from the middle of the field by the farm's roads.\n"));
  const std::string soft = text_with(farm::WayKind::soft_road, true);
  INFO(soft);
  CHECK(prints(soft, "from 1 (12, 1.6 km, soft road), 2 (10, 2.4 km)\n"));
  CHECK(prints(soft, "for 2 days after a day with more than 10 mm of"));
  const std::string none = text_with(farm::WayKind::straight, true);
  INFO(none);
  CHECK(prints(none, "from 1 (12, 1.6 km, straight), 2 (10, 2.4 km)\n"));
  CHECK(prints(none, "distance times 1.3."));
  CHECK(prints(text_with(farm::WayKind::soft_road, true, farm::UnitSystem::us), "more than 0.4 in of"));
}

TEST_CASE("without roads the straight distance and its detour are named once", "[identity]") {
  const std::string text = text_with(farm::WayKind::straight, false);
  INFO(text);
  CHECK(prints(text, "from 1 (12, 1.6 km), 2 (10, 2.4 km)\n"));
  CHECK(
      prints(text, "Ways: straight distance from the middle of the field times 1.3; no roads are counted."));
  CHECK_FALSE(prints(text, "soft"));
}
