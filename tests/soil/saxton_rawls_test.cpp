#include "aftercut/soil/saxton_rawls.hpp"

#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::soil;
using aftercut::test::check;
using aftercut::test::Kind;

TEST_CASE("The paper's own check, 20 % sand, 20 % clay, 2.5 % organic matter", "[published]") {
  const TextureWater w = saxton_rawls(0.20, 0.20, 2.5);
  const char* source = "SaxtonRawls2006 worked check";
  check({
      {"wilting, printed 13.8 %; a documented case gives .1365", source, Kind::published, 0.1365, w.wilting,
       0.0005},
      {"field capacity 32.1 %", source, Kind::published, 0.3209, w.field_capacity, 0.0005},
      {"saturation 48.2 %", source, Kind::published, 0.4821, w.saturation, 0.0005},
      {"conductivity mm/h", source, Kind::published, 12.17, w.conductivity_mm_per_h, 0.05},
      {"bulk density t/m3", source, Kind::published, 1.372, w.bulk_density_t_per_m3, 0.001},
  });
}

TEST_CASE("Five textures at 2.5 % organic matter", "[derived]") {
  struct Case {
    double sand, clay, wilting, capacity, saturation, conductivity, density;
  };
  const Case cases[] = {{0.40, 0.20, 0.137, 0.280, 0.460, 15.5, 1.43},
                        {0.30, 0.35, 0.218, 0.358, 0.477, 4.3, 1.39},
                        {0.10, 0.35, 0.215, 0.382, 0.511, 5.7, 1.30},
                        {0.10, 0.45, 0.268, 0.409, 0.524, 3.7, 1.26},
                        {0.25, 0.50, 0.298, 0.421, 0.498, 1.1, 1.33}};
  const char* source = "SaxtonRawls2006, our arithmetic";
  for (const Case& c : cases) {
    CAPTURE(c.sand, c.clay);
    const TextureWater w = saxton_rawls(c.sand, c.clay, 2.5);
    check({{"wilting", source, Kind::derived, c.wilting, w.wilting, 0.0006},
           {"field capacity", source, Kind::derived, c.capacity, w.field_capacity, 0.0006},
           {"saturation", source, Kind::derived, c.saturation, w.saturation, 0.0006},
           {"conductivity mm/h", source, Kind::derived, c.conductivity, w.conductivity_mm_per_h, 0.06},
           {"bulk density", source, Kind::derived, c.density, w.bulk_density_t_per_m3, 0.006}});
  }
}

TEST_CASE("Shares that are more than the whole are refused", "[identity]") {
  CHECK_THROWS_AS(saxton_rawls(0.7, 0.5, 2.5), aftercut::InternalError);
  CHECK_THROWS_AS(saxton_rawls(0.2, 0.2, -1.0), aftercut::InternalError);
}
