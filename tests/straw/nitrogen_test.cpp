#include "aftercut/straw/nitrogen.hpp"

#include "aftercut/core/random.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"
#include "tied_up.hpp"

using namespace aftercut::straw;
using aftercut::test::check;
using aftercut::test::Kind;

TEST_CASE("Buried straw ties up nitrogen about as measured", "[published]") {
  std::vector<aftercut::test::Row> rows;
  for (const auto& row : aftercut::test::tied_up_measured)
    rows.push_back({row.name, "BrownDickey1970, three months", Kind::published, row.measured_kg_per_ha,
                    aftercut::test::most_tied_up(row.straw_kg_per_ha), 1.3});
  check(rows);
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
