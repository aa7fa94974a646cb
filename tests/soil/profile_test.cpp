#include "aftercut/soil/profile.hpp"

#include <cmath>
#include <limits>

#include "aftercut/core/require.hpp"
#include "aftercut/soil/saxton_rawls.hpp"
#include "aftercut/soil/water.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::soil;
using aftercut::KiloPascal;
using aftercut::test::check;
using aftercut::test::Kind;

namespace {

struct TableRow {
  Texture texture;
  double tr, ts, alpha, n, ks;                               // as printed
  double at_100, at_337, optimum, wet_limit, inflection_cm;  // our arithmetic on them
};

const TableRow table[] = {
    {Texture::sand, .045, .43, .145, 2.68, 712.8, .0493, .0456, .2568, .3261, 8.2},
    {Texture::loamy_sand, .057, .41, .124, 2.28, 350.2, .0710, .0600, .2558, .3175, 10.4},
    {Texture::sandy_loam, .065, .41, .075, 1.89, 106.1, .1218, .0845, .2668, .3241, 19.9},
    {Texture::loam, .078, .43, .036, 1.56, 24.96, .2421, .1644, .2963, .3498, 53.6},
    {Texture::silt, .034, .46, .016, 1.37, 6.0, .3534, .2566, .3144, .3727, 162.5},
    {Texture::silt_loam, .067, .45, .020, 1.41, 10.8, .3297, .2389, .3153, .3692, 120.1},
    {Texture::sandy_clay_loam, .100, .39, .059, 1.48, 31.4, .2209, .1688, .2838, .3263, 36.3},
    {Texture::clay_loam, .095, .41, .019, 1.31, 6.2, .3322, .2687, .3080, .3488, 158.1},
    {Texture::silty_clay_loam, .089, .43, .010, 1.23, 1.7, .3885, .3373, .3304, .3702, 390.9},
    {Texture::sandy_clay, .100, .38, .027, 1.23, 2.9, .3123, .2665, .2982, .3309, 144.8},
    {Texture::silty_clay, .070, .36, .005, 1.09, 0.5, .3509, .3366, .3045, .3267, 1971.0},
    {Texture::clay, .068, .38, .008, 1.09, 4.8, .3654, .3466, .3203, .3442, 1232.0},
};

Profile of_texture(Texture texture, WetLimitRule rule) {
  ProfileInput input;
  input.texture = texture;
  input.wet_limit_rule = rule;
  return make_profile(input);
}

}  // namespace

TEST_CASE("Retention parameters of the twelve textures", "[published]") {
  const char* source = "CarselParrish1988, public copy of the table";
  for (const TableRow& t : table) {
    CAPTURE(name_of(t.texture));
    const Retention r = retention_of(t.texture);
    check({{"residual content", source, Kind::published, t.tr, r.theta_r, 1e-9},
           {"saturated content", source, Kind::published, t.ts, r.theta_s, 1e-9},
           {"alpha per cm", source, Kind::published, t.alpha, r.alpha_per_cm, 1e-9},
           {"n", source, Kind::published, t.n, r.n, 1e-9},
           {"Ks cm/d", source, Kind::published, t.ks, r.ks_cm_per_day, 1e-9}});
  }
}

TEST_CASE("Contents and tillage limits on the retention curve", "[derived]") {
  const char* curve = "CarselParrish1988, our arithmetic";
  const char* limits = "DexterBird2001 (recalled) on CarselParrish1988, our arithmetic";
  for (const TableRow& t : table) {
    CAPTURE(name_of(t.texture));
    const Retention r = retention_of(t.texture);
    check({{"content at 100 cm", curve, Kind::derived, t.at_100, water_content(r, 100.0), 0.00006},
           {"content at 337 cm", curve, Kind::derived, t.at_337, water_content(r, 337.0), 0.00006},
           {"optimum", limits, Kind::derived, t.optimum, optimum_water_content(r), 0.00006},
           {"wet limit", limits, Kind::derived, t.wet_limit, wet_limit_inflection(r), 0.00006},
           {"the optimum lies at the inflection point", limits, Kind::derived, optimum_water_content(r),
            water_content(r, t.inflection_cm), 0.0003}});  // suction printed to 0.1 cm
  }
}

TEST_CASE("Content falls as suction rises, from saturation to the residue", "[identity]") {
  const Retention r = retention_of(Texture::clay);
  CHECK(water_content(r, 0.0) == Approx(r.theta_s));
  for (double h = 1.0; h < 1e6; h *= 3.0) CHECK(water_content(r, 3.0 * h) < water_content(r, h));
  CHECK(water_content(r, 1e6) > r.theta_r);
  CHECK_THROWS_AS(water_content(r, -1.0), aftercut::InternalError);
}

TEST_CASE("The two wet limits of a clay differ widely", "[derived]") {
  const Retention r = retention_of(Texture::clay);
  check({{"clay, a tenth of air", "Obour2019 (read in abstract), our arithmetic", Kind::derived, 0.28,
          wet_limit_ten_percent_air(r), 1e-9}});
  CHECK(wet_limit_ten_percent_air(r) < wet_limit_inflection(r));
}

TEST_CASE("A drained clay is too wet to work, a drained sandy loam is not", "[identity]") {
  const Profile clay = of_texture(Texture::clay, WetLimitRule::ten_percent_air);
  const Profile sandy = of_texture(Texture::sandy_loam, WetLimitRule::ten_percent_air);
  CHECK_FALSE(workable(clay, drained_state(clay)));
  CHECK(workable(sandy, drained_state(sandy)));
  // By the inflection rule gravity alone (100 cm of suction) leaves the clay too wet as well.
  CHECK(water_content(retention_of(Texture::clay), 100.0) >
        wet_limit_inflection(retention_of(Texture::clay)));
}

TEST_CASE("Upper tillage limit by weight", "[published]") {
  check({{"clay 45 %, organic matter 2.5 %", "Uruguay1988, example worked by us", Kind::derived, 27.6,
          upper_tillage_limit_percent(2.5, 45.0), 0.05},
         {"intercept", "Uruguay1988", Kind::published, 7.5, upper_tillage_limit_percent(0.0, 0.0), 1e-9},
         {"for each % of organic matter", "Uruguay1988", Kind::published, 1.91,
          upper_tillage_limit_percent(1.0, 0.0) - upper_tillage_limit_percent(0.0, 0.0), 1e-9},
         {"for each % of clay", "Uruguay1988", Kind::published, 0.34,
          upper_tillage_limit_percent(0.0, 1.0) - upper_tillage_limit_percent(0.0, 0.0), 1e-9}});
}

TEST_CASE("The wet limit by air lies near the field line of heavy soils", "[cross]") {
  const Profile clay = of_texture(Texture::clay, WetLimitRule::ten_percent_air);
  const double by_weight = 100.0 * clay.wet_limit / clay.input.bulk_density_t_per_m3;
  CHECK(by_weight == Approx(upper_tillage_limit_percent(2.5, 50.0)).margin(3.0));
}

TEST_CASE("Rating cone index against clay and water", "[derived]") {
  struct Case {
    double clay, water, psi;
  };
  const Case cases[] = {{40, 25, 252.7}, {40, 30, 145.5}, {40, 40, 60.9}, {55, 40, 102.6}, {20, 30, 67.6}};
  for (const Case& c : cases) {
    CAPTURE(c.clay, c.water);
    check({{"RCI as psi", "Collins1971 in Anderson1983 eq. 1, our arithmetic", Kind::derived, c.psi,
            rating_cone_index(c.clay, c.water).value() / 6.894757, 0.06}});
  }
  for (double water = 15.0; water < 60.0; water += 5.0) {
    CHECK(rating_cone_index(50.0, water + 5.0) < rating_cone_index(50.0, water));
  }
  CHECK_THROWS_AS(rating_cone_index(50.0, 0.0), aftercut::InternalError);
}

TEST_CASE("The content for a cone index is the inverse of the cone index", "[identity]") {
  const Profile p = make_profile({});
  for (const double kpa : {200.0, 450.0, 700.0, 1500.0}) {
    const double content = content_for_cone_index(p, KiloPascal{kpa});
    const double by_weight = 100.0 * content / p.input.bulk_density_t_per_m3;
    CHECK(rating_cone_index(p.input.clay_percent, by_weight).value() == Approx(kpa).epsilon(1e-10));
  }
  CHECK_THROWS_AS(content_for_cone_index(p, KiloPascal{0.0}), aftercut::InternalError);
}

TEST_CASE("A profile orders its contents and fills its pores", "[identity]") {
  for (const TableRow& t : table) {
    CAPTURE(name_of(t.texture));
    const Profile p = of_texture(t.texture, WetLimitRule::inflection);
    CHECK(p.saturation == Approx(1.0 - 1.3 / 2.65));
    CHECK(p.wilting < p.field_capacity);
    CHECK(p.field_capacity < p.saturation);
    CHECK(p.wet_limit < p.saturation);
    CHECK(p.total_evaporable_mm == Approx(1000.0 * (p.field_capacity - 0.5 * p.wilting) * 0.15));
    CHECK(p.readily_evaporable_mm <= p.total_evaporable_mm);
  }
}

TEST_CASE("The clay profile agrees with the texture equations within their scatter", "[cross]") {
  ProfileInput input;
  input.bulk_density_t_per_m3 = 1.33;
  const Profile p = make_profile(input);
  const TextureWater w = saxton_rawls(0.25, 0.50, 2.5);
  CHECK(p.saturation == Approx(w.saturation).margin(0.002));
  CHECK(p.field_capacity == Approx(w.field_capacity).margin(0.06));
  CHECK(p.wilting == Approx(w.wilting).margin(0.06));
}

TEST_CASE("Readily evaporable water is the middle of the range of the table", "[published]") {
  const char* source = "Allen1998 Table 19 ranges, read second-hand, middle by us";
  check({{"sand 2 to 7", source, Kind::derived, 4.5, readily_evaporable_mm(Texture::sand), 1e-9},
         {"loam 8 to 10", source, Kind::derived, 9.0, readily_evaporable_mm(Texture::loam), 1e-9},
         {"silty clay loam 8 to 11", source, Kind::derived, 9.5,
          readily_evaporable_mm(Texture::silty_clay_loam), 1e-9},
         {"clay 8 to 12", source, Kind::derived, 10.0, readily_evaporable_mm(Texture::clay), 1e-9}});
}

TEST_CASE("Texture names go both ways", "[identity]") {
  for (const TableRow& t : table) CHECK(parse_texture(name_of(t.texture)) == t.texture);
  CHECK(parse_texture("silty_clay") == Texture::silty_clay);
  CHECK(parse_texture("silty clay") == Texture::silty_clay);
  CHECK_FALSE(parse_texture("mud"));
  CHECK_FALSE(parse_texture(""));
}

TEST_CASE("Impossible soils are refused", "[identity]") {
  const auto with = [](auto change) {
    ProfileInput input;
    change(input);
    return input;
  };
  CHECK_THROWS_AS(make_profile(with([](ProfileInput& i) { i.bulk_density_t_per_m3 = 2.6; })),
                  aftercut::InternalError);
  CHECK_THROWS_AS(make_profile(with([](ProfileInput& i) {
                    i.bulk_density_t_per_m3 = std::numeric_limits<double>::quiet_NaN();
                  })),
                  aftercut::InternalError);
  CHECK_THROWS_AS(make_profile(with([](ProfileInput& i) { i.clay_percent = 120.0; })),
                  aftercut::InternalError);
  CHECK_THROWS_AS(make_profile(with([](ProfileInput& i) { i.percolation_mm_per_day = -1.0; })),
                  aftercut::InternalError);
  CHECK_THROWS_AS(make_profile(with([](ProfileInput& i) { i.wet_limit_rule = WetLimitRule::entered; })),
                  aftercut::InternalError);
  const Profile entered = make_profile(with([](ProfileInput& i) {
    i.wet_limit_rule = WetLimitRule::entered;
    i.entered_wet_limit = 0.37;
  }));
  CHECK(entered.wet_limit == 0.37);
}

TEST_CASE("With sand given the contents are those of texture and organic matter", "[identity]") {
  ProfileInput input;
  input.clay_percent = 50.0;
  input.sand_percent = 25.0;
  const TextureWater w = saxton_rawls(0.25, 0.50, 2.5);
  const Profile p = make_profile(input);
  CHECK(p.saturation == w.saturation);
  CHECK(p.field_capacity == w.field_capacity);
  CHECK(p.wilting == w.wilting);
  CHECK(p.wet_limit == Approx(w.saturation - 0.10));
  CHECK(p.input.bulk_density_t_per_m3 == w.bulk_density_t_per_m3);
  CHECK(p.total_evaporable_mm == Approx(1000.0 * (w.field_capacity - 0.5 * w.wilting) * 0.150));
  input.sand_percent = 60.0;
  CHECK_THROWS_AS(make_profile(input), aftercut::InternalError);
}
