#include "aftercut/soil/evaporation.hpp"

#include <array>
#include <vector>

#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::soil;
using aftercut::test::check;
using aftercut::test::Kind;
using aftercut::test::Row;

namespace {

constexpr const char* read_copy = "Allen1998 ch. 7, numbers read second-hand";

struct DryDown {
  std::vector<double> kr, evaporation, depletion;
};

/// The day loop of the source: wetting, then Kr from the depletion, then evaporation.
DryDown dry_down(double tew, double rew, double start, const std::vector<double>& et0, double rain_on_first) {
  DryDown out;
  double de = start;
  for (std::size_t d = 0; d < et0.size(); ++d) {
    de = next_depletion(de, d == 0 ? rain_on_first : 0.0, 0.0, tew);
    out.kr.push_back(evaporation_reduction(de, rew, tew));
    out.evaporation.push_back(soil_evaporation(et0[d], de, rew, tew, 0.0, 0.0));
    de = next_depletion(de, 0.0, out.evaporation.back(), tew);
    out.depletion.push_back(de);
  }
  return out;
}

}  // namespace

TEST_CASE("Total evaporable water, reduction and coefficient are those of the read copy", "[published]") {
  check({
      {"TEW FC .23 WP .10 Ze .10", read_copy, Kind::published, 18.0, total_evaporable_mm(0.23, 0.10, 0.10),
       0.05},
      {"TEW FC .30 WP .15 Ze .10", read_copy, Kind::published, 22.5, total_evaporable_mm(0.30, 0.15, 0.10),
       0.05},
      {"TEW FC .42 WP .25 Ze .10", read_copy, Kind::published, 29.5, total_evaporable_mm(0.42, 0.25, 0.10),
       0.05},
      {"TEW FC .23 WP .10 Ze .15", read_copy, Kind::published, 27.0, total_evaporable_mm(0.23, 0.10, 0.15),
       0.05},
      {"Kr TEW 22.5 REW 9 De 0", read_copy, Kind::published, 1.0, evaporation_reduction(0.0, 9.0, 22.5),
       1e-9},
      {"Kr De 9", read_copy, Kind::published, 1.0, evaporation_reduction(9.0, 9.0, 22.5), 1e-9},
      {"Kr De 15.75", read_copy, Kind::published, 0.5, evaporation_reduction(15.75, 9.0, 22.5), 1e-9},
      {"Kr De 21.15", read_copy, Kind::published, 0.1, evaporation_reduction(21.15, 9.0, 22.5), 1e-9},
      {"Kr De 22.5", read_copy, Kind::published, 0.0, evaporation_reduction(22.5, 9.0, 22.5), 1e-9},
      {"Ke Kr 1 Kcb .15 Kcmax 1.2 few 1", read_copy, Kind::published, 1.05,
       evaporation_coefficient(1.0, 0.15, 1.2), 1e-9},
      {"Ke the same, few .3", read_copy, Kind::published, 0.36, evaporation_coefficient(1.0, 0.15, 1.2, 0.3),
       1e-9},
  });
}

TEST_CASE("Seven days of drying after 25 mm of rain", "[published]") {
  const DryDown d = dry_down(18.0, 8.0, 18.0, {5.0, 5.5, 5.0, 4.8, 5.2, 4.5, 5.0}, 25.0);
  const std::array<double, 7> expected{1.0, 1.0, 0.6975, 0.3313, 0.1643, 0.0746, 0.0394};
  std::vector<Row> rows;
  for (std::size_t i = 0; i < expected.size(); ++i) {
    rows.push_back({"Kr of each day, TEW 18 REW 8 Kcb .15 Kcmax 1.2", read_copy, Kind::published, expected[i],
                    d.kr[i], 1e-4});
  }
  check(rows);
}

TEST_CASE("Ten days of drying of a bare loam", "[recalled]") {
  const DryDown d = dry_down(20.0, 9.0, 0.0, std::vector<double>(10, 4.5), 0.0);
  const std::array<double, 10> e{4.73, 4.73, 4.53, 2.59, 1.47, 0.84, 0.48, 0.27, 0.16, 0.09};
  const std::array<double, 10> de{4.73, 9.45, 13.98, 16.57, 18.04, 18.88, 19.36, 19.64, 19.79, 19.88};
  std::vector<Row> rows;
  for (std::size_t i = 0; i < e.size(); ++i) {
    rows.push_back({"E of each day, TEW 20 REW 9 ETo 4.5", "Allen1998 ch. 7 worked case (recalled)",
                    Kind::recalled, e[i], d.evaporation[i], 0.01});
    rows.push_back({"De at the end of each day", "Allen1998 ch. 7 worked case (recalled)", Kind::recalled,
                    de[i], d.depletion[i], 0.02});
  }
  check(rows);
}

TEST_CASE("Cover takes five percent of evaporation for each tenth of the ground", "[recalled]") {
  check({
      {"no cover", "Allen1998 ch. 11", Kind::recalled, 1.0, cover_factor(0.0), 1e-12},
      {"half covered", "Allen1998 ch. 11", Kind::recalled, 0.75, cover_factor(0.5), 1e-12},
      {"all covered", "Allen1998 ch. 11", Kind::recalled, 0.5, cover_factor(1.0), 1e-12},
  });
}

TEST_CASE("Opened ground evaporates more, up to fifteen percent", "[identity]") {
  const double closed = soil_evaporation(4.0, 0.0, 9.0, 22.5, 0.0, 0.0);
  CHECK(soil_evaporation(4.0, 0.0, 9.0, 22.5, 0.0, 1.0) == Approx(1.15 * closed));
  CHECK(soil_evaporation(4.0, 0.0, 9.0, 22.5, 0.0, 0.5) > closed);
  CHECK(soil_evaporation(0.0, 0.0, 9.0, 22.5, 0.0, 1.0) == 0.0);
}
