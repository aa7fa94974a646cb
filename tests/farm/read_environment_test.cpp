// Factor sets, nutrient prices and disease history: what the reader makes of them.

#include "catch2/catch.hpp"
#include "scratch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

TEST_CASE("without entries the defaults hold", "[identity]") {
  const farm::Farm f = sound(small_farm()).farm;
  CHECK(f.environment.burn_factors == burn::FactorSet::ipcc2006);
  CHECK(f.environment.warming == burn::WarmingSet::ar6);
  CHECK(f.environment.methane.region == burn::Region::world);
  CHECK(burn::cultivation_days(f.environment.methane) == 113);
  CHECK(f.environment.winter_flood == farm::WinterFlood::by_dates);
  CHECK_FALSE(f.prices.nutrients.any());
  CHECK_FALSE(f.fields[0].disease.entered);
  CHECK(f.fields[0].disease.weight == 1.0);
}

TEST_CASE("entries arrive in their units", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["environment"] = {{"burn_factors", "ap42"},
                               {"warming_set", "AR5"},
                               {"diesel_factor", "rice_method"},
                               {"methane_set", "ipcc2006"},
                               {"region", "europe"},
                               {"season_water", "single_drainage"},
                               {"cultivation_days", 130},
                               {"winter_flood", "flooded"},
                               {"fire_losses", "nitrogen_only"},
                               {"waste_grain", "400 lb/acre"},
                               {"waste_grain_loss_per_day", 0.02},
                               {"late_autumn", "11-20"}};
  files.farm["prices"]["nitrogen"] = "1400 USD/t";
  files.farm["prices"]["potassium"] = "0.50 USD/lb";
  files.farm["field_defaults"]["disease_history"] = "some";
  const farm::Farm f = sound(files).farm;
  const farm::EnvironmentSettings& e = f.environment;
  CHECK(e.burn_factors == burn::FactorSet::ap42);
  CHECK(e.warming == burn::WarmingSet::ar5);
  CHECK(e.diesel == burn::DieselSet::rice_method);
  CHECK(e.methane.set == burn::MethaneSet::ipcc2006);
  CHECK(e.methane.region == burn::Region::europe);
  CHECK(e.methane.water == burn::SeasonWater::single_drainage);
  CHECK(burn::cultivation_days(e.methane) == 130);
  CHECK(e.winter_flood == farm::WinterFlood::flooded);
  CHECK(e.fire_losses == farm::FireLosses::nitrogen_only);
  CHECK(e.waste_grain.at_harvest_kg_per_ha == Approx(448.34).epsilon(1e-4));
  CHECK(e.waste_grain.loss_per_day == 0.02);
  CHECK(e.late_autumn == MonthDay{11, 20});
  CHECK(f.prices.nutrients.n_per_kg.value() == Approx(1.4));
  CHECK_FALSE(f.prices.nutrients.p_per_kg);
  CHECK(f.prices.nutrients.k_per_kg.value() == Approx(0.5 / 0.45359237));
  CHECK(f.fields[0].disease.entered);
  CHECK(f.fields[0].disease.weight == farm::some_disease);
}

TEST_CASE("stem rot as a percentage, and not both entries", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["field_defaults"]["stem_rot"] = "6 %";
  CHECK(sound(files).farm.fields[0].disease.weight == Approx(0.4));
  files.farm["field_defaults"]["disease_history"] = "none";
  const auto both = read_farm(files);
  REQUIRE_FALSE(both.ok());
  CHECK(says(both.issues(), "both disease_history and stem_rot"));
}
