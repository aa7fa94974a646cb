// Methane of the next rice season: worked values, ranges, and what makes it more or less.
#include "aftercut/burn/methane.hpp"

#include <cmath>

#include "aftercut/burn/emissions.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::burn;
using test::Kind;

namespace {

constexpr StrawApplied none{}, autumn{5000.0, 0.0}, spring{0.0, 5000.0};
constexpr MethaneSettings world{}, world_2006{.set = MethaneSet::ipcc2006, .cultivation_days = {}};

MethaneSettings in(Region region) {
  MethaneSettings s;
  s.region = region;
  return s;
}

double season(const StrawApplied& straw, Preseason before, const MethaneSettings& s = world) {
  return season_methane(straw, before, s).mid;
}

}  // namespace

TEST_CASE("a season without straw reproduces a published figure", "[published]") {
  test::check({{"1.19 x 113 d x 27.0 [kg CO2e/ha]", "MunicipalFactor, rice row", Kind::published, 3630.69,
                warming_of(WarmingSet::ar6).ch4 * season(none, Preseason::dry_under_180), 0.005}});
}

TEST_CASE("straw of 5 t/ha", "[derived]") {
  test::check({
      {"SFo, none", "IPCC2019 Eq 5.3", Kind::derived, 1.0, straw_factor(none, world).mid, 1e-12},
      {"SFo, spring", "IPCC2019 Eq 5.3", Kind::derived, 2.87812, straw_factor(spring, world).mid, 5e-6},
      {"SFo, autumn", "IPCC2019 Eq 5.3", Kind::derived, 1.48293, straw_factor(autumn, world).mid, 5e-6},
      {"SFo, autumn, 2006", "IPCC2006Rice", Kind::recalled, 1.69671, straw_factor(autumn, world_2006).mid,
       5e-6},
      {"EF, autumn, dry winter [kg/ha/d]", "IPCC2019 Eq 5.2", Kind::derived, 1.5706,
       daily_methane(autumn, Preseason::dry_over_180, world).mid, 5e-5},
      {"EF, spring, dry winter [kg/ha/d]", "IPCC2019 Eq 5.2", Kind::derived, 3.0482,
       daily_methane(spring, Preseason::dry_over_180, world).mid, 5e-5},
      {"EF, autumn, flooded [kg/ha/d]", "IPCC2019 Eq 5.2", Kind::derived, 4.2529,
       daily_methane(autumn, Preseason::flooded, world).mid, 5e-5},
      {"EF, autumn, dry winter, 2006 [kg/ha/d]", "IPCC2006Rice", Kind::recalled, 1.4999,
       daily_methane(autumn, Preseason::dry_over_180, world_2006).mid, 5e-5},
      {"autumn, dry winter [kg/ha]", "IPCC2019 Eq 5.1", Kind::derived, 177.5,
       season(autumn, Preseason::dry_over_180), 0.05},
      {"spring, dry winter [kg/ha]", "IPCC2019 Eq 5.1", Kind::derived, 344.4,
       season(spring, Preseason::dry_over_180), 0.05},
      {"autumn, flooded [kg/ha]", "IPCC2019 Eq 5.1", Kind::derived, 480.6, season(autumn, Preseason::flooded),
       0.05},
      {"North America, autumn, dry winter [kg/ha]", "IPCC2019 Table 5.11", Kind::derived, 119.2,
       season(autumn, Preseason::dry_over_180, in(Region::north_america)), 0.05},
      {"Europe, autumn, dry winter [kg/ha]", "IPCC2019 Table 5.11", Kind::derived, 253.2,
       season(autumn, Preseason::dry_over_180, in(Region::europe)), 0.05},
  });
}

TEST_CASE("ranges combine as those of independent factors", "[derived]") {
  // No straw, dry for less than 180 days: base 0.80 - 1.19 - 1.76, water 0.73 - 1 - 1.27, preseason 0.88 - 1
  // - 1.12.
  const Uncertain f = daily_methane(none, Preseason::dry_under_180, world);
  const double up = std::hypot(std::hypot(std::log(1.76 / 1.19), std::log(1.27)), std::log(1.12));
  const double down = std::hypot(std::hypot(std::log(1.19 / 0.80), std::log(1 / 0.73)), std::log(1 / 0.88));
  test::check(
      {{"low [kg/ha/d]", "IPCC2019 Tables 5.11 to 5.13", Kind::derived, 1.19 * std::exp(-down), f.low, 1e-12},
       {"high [kg/ha/d]", "IPCC2019 Tables 5.11 to 5.13", Kind::derived, 1.19 * std::exp(up), f.high,
        1e-12}});
  // Narrower than all ends at once, wider than the widest factor alone.
  CHECK(f.low > 0.80 * 0.73 * 0.88);
  CHECK(f.high < 1.76 * 1.27 * 1.12);
  CHECK(f.low < 0.80);
  CHECK(f.high > 1.76);
}

TEST_CASE("every setting has an ordered range", "[identity]") {
  for (const MethaneSet set : {MethaneSet::ipcc2019, MethaneSet::ipcc2006})
    for (std::size_t r = 0; r < region_keys().size(); ++r)
      for (std::size_t w = 0; w < season_water_keys().size(); ++w)
        for (const auto before : {Preseason::dry_under_180, Preseason::dry_over_180, Preseason::dry_over_365,
                                  Preseason::flooded}) {
          const MethaneSettings s{set, static_cast<Region>(r), static_cast<SeasonWater>(w), {}};
          const Uncertain f = season_methane({2000.0, 1500.0}, before, s);
          CHECK(f.low > 0.0);
          CHECK(f.low < f.mid);
          CHECK(f.mid < f.high);
        }
}

TEST_CASE("what lowers methane and what does not", "[identity]") {
  SECTION("straw worked in sooner never gives off more") {
    for (double early = 0.0; early < 5000.0; early += 500.0)
      for (const MethaneSettings& s : {world, world_2006})
        CHECK(straw_factor({early + 500.0, 4500.0 - early}, s).mid <
              straw_factor({early, 5000.0 - early}, s).mid);
  }
  SECTION("less straw gives off less, none of it least") {
    CHECK(season({3000.0, 0.0}, Preseason::dry_over_180) < season(autumn, Preseason::dry_over_180));
    CHECK(season(none, Preseason::dry_over_180) < season({3000.0, 0.0}, Preseason::dry_over_180));
  }
  SECTION("longer dry before the crop never gives off more") {
    double last = season(none, Preseason::flooded);
    for (const int days : {10, 180, 181, 365, 366, 700}) {
      CHECK(season(none, dry_preseason(days)) <= last);
      last = season(none, dry_preseason(days));
    }
    CHECK(dry_preseason(180) == Preseason::dry_under_180);
    CHECK(dry_preseason(181) == Preseason::dry_over_180);
  }
  SECTION("draining in the season") {
    MethaneSettings once = world, often = world;
    once.water = SeasonWater::single_drainage;
    often.water = SeasonWater::multiple_drainage;
    CHECK(season(none, Preseason::dry_over_180, once) < season(none, Preseason::dry_over_180));
    CHECK(season(none, Preseason::dry_over_180, often) < season(none, Preseason::dry_over_180, once));
  }
  SECTION("days of cultivation as entered") {
    MethaneSettings longer = world;
    longer.cultivation_days = 226;
    CHECK(season(autumn, Preseason::flooded, longer) == Approx(2 * season(autumn, Preseason::flooded)));
  }
}

TEST_CASE("nitrous oxide of straw worked in", "[derived]") {
  const Uncertain f = residue_n2o(KgPerHa{28.0}, SeasonWater::continuous);
  test::check({{"28 kg N/ha [kg N2O/ha]", "IPCC2019 Table 11.1", Kind::derived, 0.132, f.mid, 1e-12},
               {"its high end", "IPCC2019 Table 11.1", Kind::derived, 0.44, f.high, 1e-12},
               {"drained", "IPCC2019 Table 11.1", Kind::derived, 0.22,
                residue_n2o(KgPerHa{28.0}, SeasonWater::single_drainage).mid, 1e-12}});
  CHECK(f.low == 0.0);
}
