// Soils and limits of the ground: what the reader makes of them.

#include "catch2/catch.hpp"
#include "scratch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

TEST_CASE("dry limit, draft in dry ground and days of waiting arrive", "[identity]") {
  const farm::Problem plain = sound(small_farm());
  CHECK(plain.farm.most_dry_wait_days == 3);
  CHECK(plain.farm.soils[0].input.dry_draft_gain == 0.5);
  CHECK(plain.farm.soils[0].dry_limit < plain.farm.soils[0].wet_limit);
  FarmFiles files = small_farm();
  files.farm["soils"][0]["dry_limit"] = 0.33;
  files.farm["soils"][0]["dry_draft_gain"] = "80 %";
  files.farm["limits"]["most_dry_wait_days"] = 0;
  const farm::Problem entered = sound(files);
  CHECK(entered.farm.soils[0].dry_limit == 0.33);
  CHECK(entered.farm.soils[0].wet_limit == plain.farm.soils[0].wet_limit);
  CHECK(entered.farm.soils[0].input.dry_draft_gain == Approx(0.8).epsilon(1e-12));
  CHECK(entered.farm.most_dry_wait_days == 0);
}

TEST_CASE("a soil by sand and clay has its dry limit by the same rule", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["soils"][0]["sand"] = "15 %";
  files.farm["soils"][0]["dry_draft_gain_percent"] = 0;
  const soil::Profile sandy = sound(files).farm.soils[0];
  CHECK(sandy.dry_limit / sandy.wet_limit == Approx(soil::dry_limit_strength_doubled(sandy.retention) /
                                                    soil::wet_limit_inflection(sandy.retention)));
  CHECK(soil::draft_factor(sandy, {.seedbed_mm = 0.1, .below_mm = 0.0, .ponded_mm = 0.0}) == 1.0);
}
