// Cover, nutrients and the published curves that stand beside the daily decay.
#include <array>
#include <cmath>
#include <vector>

#include "aftercut/straw/pools.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::straw;
using aftercut::test::check;
using aftercut::test::Kind;
using aftercut::test::Row;

TEST_CASE("Cover from straw on top", "[derived]") {
  const auto lying = [](double kg) {
    Pools p;
    p.slow[1] = kg;
    return p;
  };
  const char* source = "Gregory1982 (form recalled), k judged, our arithmetic";
  check({{"500 kg/ha", source, Kind::derived, 0.2212, cover(lying(500.0)), 0.0005},
         {"1000 kg/ha", source, Kind::derived, 0.3935, cover(lying(1000.0)), 0.0005},
         {"2000 kg/ha", source, Kind::derived, 0.6321, cover(lying(2000.0)), 0.0005},
         {"2800 kg/ha", source, Kind::derived, 0.7534, cover(lying(2800.0)), 0.0005},
         {"7000 kg/ha", source, Kind::derived, 0.9698, cover(lying(7000.0)), 0.0005},
         {"k 0.0006, 2800 kg/ha", source, Kind::derived, 0.8136, cover(lying(2800.0), 0.0006), 0.0005},
         {"0.40 of the mass keeps 0.826 of the cover", "McCool1995 (warning read), our arithmetic",
          Kind::derived, 0.826, cover(lying(2800.0), 0.0006) / cover(lying(7000.0), 0.0006), 0.001}});
  CHECK(cover(Pools{}) == 0.0);
  Pools mixed;
  mixed.slow[3] = 7000.0;
  CHECK(cover(mixed) == 0.0);
}

TEST_CASE("Nutrients in straw", "[derived]") {
  const Nutrients n;
  const char* source = "Witt1999 x Dobermann2002 (both read), product by us";
  const NutrientMass baled = nutrients_in(2800.0, n);
  check({{"N kg per t", source, Kind::derived, 14.7 * 0.40, 1000.0 * n.n, 0.02},
         {"P kg per t", source, Kind::derived, 2.6 * 0.325, 1000.0 * n.p, 0.02},
         {"K kg per t", source, Kind::derived, 14.5 * 0.825, 1000.0 * n.k, 0.04},  // 11.96, kept as 12.0
         {"N in 2800 kg baled", source, Kind::derived, 16.5, baled.n_kg_per_ha, 0.05},
         {"P in 2800 kg baled", source, Kind::derived, 2.4, baled.p_kg_per_ha, 0.05},
         {"K in 2800 kg baled", source, Kind::derived, 33.5, baled.k_kg_per_ha, 0.15}});
  CHECK(n.n >= 0.0042);  // measured range of N share, Williams1972 (read)
  CHECK(n.n <= 0.0059);
}

TEST_CASE("Handbook temperature factor", "[recalled]") {
  const char* source = "Renard1997 ch. 5, constants recalled, our arithmetic";
  const std::array<double, 11> t{-8, 0, 5, 8, 10, 12, 15, 20, 25, 32, 40};
  const std::array<double, 11> f32{0,      0.0784, 0.2001, 0.2944, 0.3640, 0.4375,
                                   0.5519, 0.7399, 0.8980, 1,      0.8064};
  const std::array<double, 11> f33{0,      0.0481, 0.1547, 0.2432, 0.3104, 0.3827,
                                   0.4976, 0.6926, 0.8651, 0.9975, 0.8478};
  const std::array<double, 11> f37{0,      0.0592, 0.1559, 0.2326, 0.2901, 0.3518,
                                   0.4503, 0.6213, 0.7844, 0.9555, 0.9808};
  std::vector<Row> rows;
  for (std::size_t i = 0; i < t.size(); ++i) {
    rows.push_back({"To 32 A 8", source, Kind::recalled, f32[i], handbook_temperature_factor(t[i]), 0.0005});
    rows.push_back(
        {"To 33 A 6.1", source, Kind::recalled, f33[i], handbook_temperature_factor(t[i], 33.0, 6.1), 0.001});
    rows.push_back({"To 37 A 7.76", source, Kind::recalled, f37[i],
                    handbook_temperature_factor(t[i], 37.0, 7.76), 0.0005});
  }
  rows.push_back({"p 0.008, 10 C, 150 days", source, Kind::recalled, 0.6461,
                  std::exp(-0.008 * handbook_temperature_factor(10.0) * 150.0), 0.0005});
  rows.push_back({"p 0.008, 5 C, 150 days", source, Kind::recalled, 0.7865,
                  std::exp(-0.008 * handbook_temperature_factor(5.0) * 150.0), 0.0005});
  check(rows);
  CHECK(handbook_temperature_factor(60.0) == 0.0);
}

TEST_CASE("Relative decay at low oxygen", "[published]") {
  check({{"21 %", "ParrReuszer1959", Kind::published, 1.00, oxygen_factor(21.0), 0.005},
         {"5 %", "ParrReuszer1959", Kind::published, 0.86, oxygen_factor(5.0), 0.005},
         {"2.5 %", "ParrReuszer1959", Kind::published, 0.70, oxygen_factor(2.5), 0.005},
         {"0 %", "ParrReuszer1959", Kind::published, 0.13, oxygen_factor(0.0), 0.005}});
  for (double o2 = 0.0; o2 < 20.0; o2 += 1.0) CHECK(oxygen_factor(o2 + 1.0) > oxygen_factor(o2));
}

TEST_CASE("Degree days", "[recalled]") {
  const char* source = "DouglasRickman1992, constants recalled, our arithmetic";
  check(
      {{"N 5, fW 1, 1500", source, Kind::recalled, 0.4868, degree_day_remaining(5.0, 1.0, 1500.0), 0.0005},
       {"N 5, fW 0.2, 1500", source, Kind::recalled, 0.8659, degree_day_remaining(5.0, 0.2, 1500.0), 0.0005},
       {"N 6, fW 1, 2000", source, Kind::recalled, 0.3462, degree_day_remaining(6.0, 1.0, 2000.0), 0.0005},
       {"N 6, fW 0.2, 2000", source, Kind::recalled, 0.8088, degree_day_remaining(6.0, 0.2, 2000.0), 0.0005},
       {"N 6, fW 1, 1000", source, Kind::recalled, 0.5884, degree_day_remaining(6.0, 1.0, 1000.0), 0.0005}});
  CHECK(degree_day_remaining(8.0, 1.0, 1000.0) < degree_day_remaining(5.0, 1.0, 1000.0));
}
