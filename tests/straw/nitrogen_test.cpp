#include "aftercut/straw/nitrogen.hpp"

#include "aftercut/core/random.hpp"
#include "aftercut/straw/pools.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::straw;
using aftercut::test::check;
using aftercut::test::Kind;

namespace {

/// Nitrogen held by straw and microbes above what the straw brought [kg/ha], the most over `days` of buried,
/// moist straw at 15 C.
double most_tied_up(double straw_kg_per_ha, int days) {
  const DecaySettings settings;
  const NitrogenSettings nitrogen;
  const DecayRates rates = rates_of(settings);
  Pools pools = move(fresh(straw_kg_per_ha, 0.0, settings), {.bury = 1.0});
  const double factor = temperature_factor(rates, 15.0);
  NitrogenStateOf<double> n{.in_straw = nitrogen.content_kg_per_kg * straw_kg_per_ha};
  double most = 0.0;
  for (int d = 0; d < days; ++d) {
    const DecayStep rot = decay<double>(
        pools, {.soil_factor = factor, .air_factor = factor, .soil_wetness = 1.0, .pores_full = 0.7}, rates);
    pools = rot.pools;
    n = live_nitrogen(n, rot.decayed_kg_per_ha, factor, nitrogen).state;
    most = std::max(most, n.in_straw + n.in_microbes - nitrogen.content_kg_per_kg * straw_kg_per_ha);
  }
  return most;
}

}  // namespace

TEST_CASE("Buried straw ties up nitrogen about as measured", "[published]") {
  const char* source = "BrownDickey1970, three months";
  check({{"1121 kg/ha", source, Kind::published, 1.6, most_tied_up(1121.0, 90), 0.8},
         {"2242 kg/ha", source, Kind::published, 2.9, most_tied_up(2242.0, 90), 1.3},
         {"3363 kg/ha", source, Kind::published, 2.8, most_tied_up(3363.0, 90), 0.5},
         {"4484 kg/ha", source, Kind::published, 2.9, most_tied_up(4484.0, 90), 0.9},
         {"6732 kg/ha", source, Kind::published, 5.3, most_tied_up(6732.0, 90), 0.5}});
}

TEST_CASE("A day's nitrogen by hand", "[derived]") {
  const NitrogenSettings s{.content_kg_per_kg = 0.006, .held_kg_per_kg = 0.010, .release_25c_per_day = 0.02};
  const auto day = live_nitrogen<double>({.in_straw = 30.0, .in_microbes = 5.0}, 100.0, 0.5, s);
  const char* source = "Microbes, our arithmetic";
  check({{"out of the straw", source, Kind::derived, 29.4, day.state.in_straw, 1e-12},
         {"taken from the soil", source, Kind::derived, 0.4, day.from_soil, 1e-12},
         {"given back by 5 kg of microbes", source, Kind::derived, 0.05, day.to_soil, 1e-12},
         {"held by microbes", source, Kind::derived, 5.95, day.state.in_microbes, 1e-12}});
  const NitrogenSettings rich{
      .content_kg_per_kg = 0.015, .held_kg_per_kg = 0.010, .release_25c_per_day = 0.0};
  const auto surplus = live_nitrogen<double>({.in_straw = 75.0}, 100.0, 1.0, rich);
  check({{"rich straw gives at once", source, Kind::derived, 0.5, surplus.to_soil, 1e-12},
         {"and takes nothing", source, Kind::derived, 0.0, surplus.from_soil, 1e-12}});
}

TEST_CASE("Nitrogen is kept from day to day", "[identity]") {
  aftercut::Draws draws{5, aftercut::stream_of("nitrogen")};
  NitrogenStateOf<double> n{.in_straw = 40.0};
  double from_soil = 0.0, to_soil = 0.0;
  for (int day = 0; day < 400; ++day) {
    const auto step =
        live_nitrogen<double>(n, 30.0 * draws.uniform() * n.in_straw / 40.0, 2.0 * draws.uniform(), {});
    n = step.state;
    from_soil += step.from_soil;
    to_soil += step.to_soil;
    CHECK(step.from_soil >= 0.0);
    CHECK(step.to_soil >= 0.0);
  }
  check({{"in = out + held", "mass", Kind::identity, 40.0 + from_soil, to_soil + n.in_straw + n.in_microbes,
          1e-9}});
}
