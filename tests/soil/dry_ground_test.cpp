// Dry tillage limit and draft of drying ground: what is worked out, how the limits lie, and what is refused.

#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/soil/water.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut::soil;
using aftercut::test::check;
using aftercut::test::Kind;

namespace {

struct DryRow {
  Texture texture;
  double dry_limit;  // found by a fine march along the curve, outside this program
};

const DryRow dry_rows[] = {
    {Texture::sand, .0509},
    {Texture::loamy_sand, .0810},
    {Texture::sandy_loam, .1351},
    {Texture::loam, .2115},
    {Texture::silt, .2394},
    {Texture::silt_loam, .2445},
    {Texture::sandy_clay_loam, .2261},
    {Texture::clay_loam, .2642},
    {Texture::silty_clay_loam, .2932},
    {Texture::sandy_clay, .2681},
    {Texture::silty_clay, .2901},
    {Texture::clay, .3048},
};

ProfileInput input_of(Texture texture, WetLimitRule rule = WetLimitRule::ten_percent_air) {
  ProfileInput input;
  input.texture = texture;
  input.wet_limit_rule = rule;
  return input;
}

WaterState at_content(const Profile& p, double content) {
  return {.seedbed_mm = content * p.seedbed_depth_mm, .below_mm = 100.0, .ponded_mm = 0.0};
}

}  // namespace

TEST_CASE("Dry limits where the strength that we assume is doubled", "[derived]") {
  const char* source = "DexterBird2001 (recalled) with DryStrength (assumed, low confidence), our arithmetic";
  for (const DryRow& t : dry_rows) {
    CAPTURE(name_of(t.texture));
    check({{"dry limit", source, Kind::derived, t.dry_limit,
            dry_limit_strength_doubled(retention_of(t.texture)), 0.00006}});
  }
}

TEST_CASE("Suction times content is twice as much at the dry limit as at the optimum", "[identity]") {
  for (const DryRow& t : dry_rows) {
    CAPTURE(name_of(t.texture));
    const Retention r = retention_of(t.texture);
    const double m = 1.0 - 1.0 / r.n;
    // Suction from content, the curve turned round.
    const auto suction = [&](double content) {
      const double full = (content - r.theta_r) / (r.theta_s - r.theta_r);
      return std::pow(std::pow(full, -1.0 / m) - 1.0, 1.0 / r.n) / r.alpha_per_cm;
    };
    const double dry = dry_limit_strength_doubled(r), optimum = optimum_water_content(r);
    CHECK(dry < optimum);
    CHECK(suction(dry) * dry == Approx(2.0 * suction(optimum) * optimum).epsilon(1e-8));
  }
}

TEST_CASE("A curve that loses its strength as it dries has no dry limit", "[identity]") {
  Retention r = retention_of(Texture::sand);
  r.theta_r = 0.0;
  CHECK_THROWS_AS(dry_limit_strength_doubled(r), aftercut::InternalError);
}

TEST_CASE("The dry limit keeps its distance from the wet limit in force", "[identity]") {
  for (const DryRow& t : dry_rows) {
    CAPTURE(name_of(t.texture));
    const Profile air = make_profile(input_of(t.texture));
    const Profile inflection = make_profile(input_of(t.texture, WetLimitRule::inflection));
    CHECK(inflection.dry_limit == Approx(dry_limit_strength_doubled(inflection.retention)).epsilon(1e-12));
    CHECK(air.dry_limit < air.wet_limit);
    CHECK(air.dry_limit / air.wet_limit ==
          Approx(inflection.dry_limit / inflection.wet_limit).epsilon(1e-12));
  }
}

TEST_CASE("The two rules contradict each other on the clay of the table", "[derived]") {
  const Retention r = retention_of(Texture::clay);
  CHECK(wet_limit_ten_percent_air(r) < dry_limit_strength_doubled(r));
  const Profile clay = make_profile(input_of(Texture::clay));
  CHECK(clay.dry_limit > clay.wilting);  // and what stands in force lies between them
}

TEST_CASE("An entered dry limit holds, and has to lie below the wet limit", "[identity]") {
  ProfileInput input = input_of(Texture::clay);
  input.entered_dry_limit = 0.33;
  CHECK(make_profile(input).dry_limit == 0.33);
  input.wet_limit_rule = WetLimitRule::entered;
  input.entered_wet_limit = 0.33;
  CHECK_THROWS_AS(make_profile(input), aftercut::InternalError);
  input.entered_dry_limit.reset();
  input.entered_wet_limit = 0.36;
  CHECK(make_profile(input).dry_limit < 0.36);
  input.dry_draft_gain = -0.1;
  CHECK_THROWS_AS(make_profile(input), aftercut::InternalError);
}

TEST_CASE("Ground is too dry below its dry limit, at any rate not while it is too wet", "[identity]") {
  for (const DryRow& t : dry_rows) {
    CAPTURE(name_of(t.texture));
    const Profile p = make_profile(input_of(t.texture));
    CHECK_FALSE(too_dry(p, at_content(p, p.saturation)));
    CHECK_FALSE(too_dry(p, at_content(p, p.dry_limit + 1e-9)));
    CHECK(too_dry(p, at_content(p, p.dry_limit - 1e-9)));
    for (double content = 0.01; content < p.saturation; content += 0.001)
      CHECK((workable(p, at_content(p, content)) || !too_dry(p, at_content(p, content))));
  }
}

TEST_CASE("Draft grows in a straight line from its least to wilting", "[identity]") {
  for (const Texture texture : {Texture::loam, Texture::silty_clay, Texture::clay}) {
    ProfileInput input = input_of(texture);
    input.dry_draft_gain = 0.6;
    const Profile p = make_profile(input);
    CAPTURE(name_of(texture));
    REQUIRE(p.wilting < p.least_draft);
    const auto factor = [&](double content) { return draft_factor(p, at_content(p, content)); };
    const char* rule = "DryDraft (assumed)";
    check({{"saturated", rule, Kind::identity, 1.0, factor(p.saturation), 0.0},
           {"at the content of least draft", rule, Kind::identity, 1.0, factor(p.least_draft), 1e-12},
           {"half-way", rule, Kind::identity, 1.3, factor(0.5 * (p.least_draft + p.wilting)), 1e-12},
           {"at wilting", rule, Kind::identity, 1.6, factor(p.wilting), 1e-12},
           {"drier than wilting", rule, Kind::identity, 1.6, factor(0.5 * p.wilting), 1e-12}});
    for (double content = 0.01; content < p.saturation; content += 0.01)
      CHECK(factor(content + 0.01) <= factor(content));
  }
}

TEST_CASE("Draft is least from the optimum up, or from a wet limit below it", "[identity]") {
  const Profile air = make_profile(input_of(Texture::clay));
  CHECK(air.least_draft == air.wet_limit);
  const Profile inflection = make_profile(input_of(Texture::clay, WetLimitRule::inflection));
  CHECK(inflection.least_draft == optimum_water_content(inflection.retention));
  ProfileInput dry = input_of(Texture::clay, WetLimitRule::entered);
  dry.entered_wet_limit = 0.2;  // drier than wilting: one step from least to most
  const Profile p = make_profile(dry);
  REQUIRE(p.least_draft < p.wilting);
  CHECK(draft_factor(p, at_content(p, 0.2)) == 1.0);
  CHECK(draft_factor(p, at_content(p, 0.19)) == 1.0 + p.input.dry_draft_gain);
}

TEST_CASE("Without a gain dry ground pulls no harder", "[identity]") {
  ProfileInput input = input_of(Texture::clay);
  input.dry_draft_gain = 0.0;
  const Profile p = make_profile(input);
  for (double content = 0.05; content < p.saturation; content += 0.05)
    CHECK(draft_factor(p, at_content(p, content)) == 1.0);
}
