// Disease carried by straw, and grain left for birds.
#include "aftercut/straw/carry_over.hpp"

#include "aftercut/straw/load.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::straw;
using test::Kind;

namespace {

/// Cut at so many cm, the loose straw baled away altogether: what is left of 7 t/ha.
double stubble_left(double cut_cm) { return 7000.0 * stubble_share(cut_cm).value(); }

double share(double on_top, double in_ground = 0.0, int flooded_days = 0) {
  return carried_share({on_top, in_ground, 7000.0, flooded_days});
}

}  // namespace

TEST_CASE("the index against trials of cutting height and fire", "[derived]") {
  const double burned = share(0.23 * 7000.0);  // 77 % consumed. Source: Linquist2006 (read)
  // Cut at 0 to 3 in and baled: like burned; at 9 to 12 in: two to five times as much inoculum.
  test::check({{"cut at 2.5 in and baled, against burned", "WebsterBockus1978, tolerance ours",
                Kind::published, 1.0, share(stubble_left(6.35)) / burned, 0.1}});
  CHECK(share(stubble_left(26.7)) / burned > 2.0);
  CHECK(share(stubble_left(26.7)) / burned < 5.0);
}

TEST_CASE("more straw on top carries more; ground, water and rot less", "[identity]") {
  CHECK(share(7000.0) == 1.0);
  CHECK(share(9000.0) == 1.0);
  CHECK(share(0.0) == 0.0);
  for (double cut = 5.0; cut < 60.0; cut += 5.0)
    CHECK(share(stubble_left(cut + 5.0)) > share(stubble_left(cut)));
  CHECK(share(3000.0, 2000.0) < share(5000.0));
  CHECK(share(3000.0, 2000.0) > share(3000.0));
  CHECK(share(5000.0, 0.0, 30) < share(5000.0));
  CHECK(share(5000.0, 0.0, 90) == share(5000.0, 0.0, 60));
  CHECK(carried_share({100.0, 0.0, 0.0, 0}) == 0.0);
  test::check({{"stem rot in 15 % of stems", "Ccr80156", Kind::derived, 1.0, stem_rot_weight(15.0), 1e-12},
               {"in 6 %", "Ccr80156", Kind::derived, 0.4, stem_rot_weight(6.0), 1e-12}});
  CHECK(stem_rot_weight(40.0) == 1.0);
}

TEST_CASE("grain left by what was done to the straw", "[published]") {
  const WasteGrain delta{.at_harvest_kg_per_ha = 105.0, .loss_per_day = 0.0};
  const WasteGrain valley{.loss_per_day = 0.0};
  test::check({
      {"at harvest [kg/ha]", "Miller1989", Kind::published, 388.0, waste_grain_left(valley, 0, {}), 0.5},
      {"burned [kg/ha]", "Miller1989", Kind::published, 276.0, waste_grain_left(valley, 0, {.burned = true}),
       0.5},
      {"mowed [kg/ha]", "Kross2006", Kind::published, 67.0, waste_grain_left(delta, 0, {.chopped = true}),
       0.5},
      {"rolled [kg/ha]", "Kross2006", Kind::published, 51.0, waste_grain_left(delta, 0, {.rolled = true}),
       0.5},
      {"disked [kg/ha]", "Kross2006", Kind::published, 48.0,
       waste_grain_left(delta, 0, {.chopped = true, .disked = true}), 0.5},
      {"271 kg/ha after 90 days [kg/ha]", "WasteGrainLoss", Kind::recalled, 105.0,
       waste_grain_left({.at_harvest_kg_per_ha = 271.0}, 90, {}), 1.0},
  });
}

TEST_CASE("grain only ever gets less", "[identity]") {
  for (int day = 0; day < 120; ++day)
    CHECK(waste_grain_left({}, day + 1, {}) < waste_grain_left({}, day, {}));
  CHECK(waste_grain_left({}, -20, {}) == 388.0);
}
