// Farms of a region: what they offer, their shares, and the region's own audit.

#include "aftercut/scenario/region.hpp"

#include <cmath>
#include <limits>

#include "aftercut/audit/region.hpp"
#include "aftercut/burn/rules.hpp"
#include "aftercut/farm/read.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;

namespace {

const farm::Problem& demo() {
  static const farm::Problem problem = [] {
    auto read = farm::read(std::filesystem::path{AFTERCUT_SOURCE_DIR} / "fields/demo",
                           {.years_from = 1998, .years_to = 2000, .as_of = parse_iso_date("2026-10-12")});
    return std::move(read).value();
  }();
  return problem;
}

/// The demo farm twice.
plan::Region planned(const farm::RegionLimits& limits, int threads) {
  const farm::RegionFolder folder{.name = "two", .currency = "USD", .farms = {"a", "b"}, .limits = limits};
  auto region = scenario::plan_region({.folder = &folder,
                                       .read = [](std::size_t, const scenario::Fits*) { return demo(); },
                                       .threads = threads,
                                       .look_changes = 40,
                                       .plan_changes = 40,
                                       .bound_rounds = 1,
                                       .step = {}});
  return std::move(region).value();
}

bool named(const audit::Audit& audit, const std::string& rule) {
  return std::ranges::any_of(audit.violations, [&](const audit::Violation& v) { return v.rule == rule; });
}

}  // namespace

TEST_CASE("a farm offers its own plan first, and plans that need less of what is shared", "[identity]") {
  const auto offers = scenario::offers_of(demo(), {5.0, 20.0, 0.1}, 1, 200);
  REQUIRE(offers.offers.size() >= 2);
  CHECK(offers.offers.size() == offers.decisions.size());
  const plan::Shares& own = offers.offers.front().needs;
  CHECK(own[plan::burn_day] > 0.0);
  const auto some = [&](const auto& holds) { return std::ranges::any_of(offers.offers, holds); };
  CHECK(some([](const planner::Offer& o) { return o.needs[plan::burn_season] == 0.0; }));
  CHECK(some([&](const planner::Offer& o) {
    return o.needs[plan::canal_flow] > 0.0 && o.needs[plan::canal_flow] <= 0.1 * own[plan::canal_flow] + 1e-9;
  }));
  // Without limits it offers its own plan alone.
  CHECK(scenario::offers_of(demo(), {}, 1, 200).offers.size() == 1);
}

TEST_CASE("a share lowers a farm's own limits and never lifts them", "[identity]") {
  const farm::Problem p = scenario::with_shares(demo(), {7.0, 11.0, 0.2});
  const burn::Limits l = burn::limits_of(*p.farm.burning);
  CHECK(*l.daily_area_ha == Approx(7.0));
  CHECK(*l.season_area_ha == Approx(11.0));
  CHECK(p.farm.supply->most_flow.value() == Approx(0.2 * 86400.0));
  constexpr double none = std::numeric_limits<double>::infinity();
  for (const plan::Shares& much : {plan::Shares{1e4, none, 1e3}, plan::Shares{none, none, none}}) {
    const farm::Problem q = scenario::with_shares(demo(), much);
    CHECK(*burn::limits_of(*q.farm.burning).daily_area_ha ==
          *burn::limits_of(*demo().farm.burning).daily_area_ha);
    CHECK_FALSE(burn::limits_of(*q.farm.burning).season_area_ha);
    CHECK(q.farm.supply->most_flow.value() == demo().farm.supply->most_flow.value());
  }
}

TEST_CASE("a region that shares more costs more, and its bound stays beneath", "[identity]") {
  const plan::Region free = planned({}, 1), tight = planned({.burn_day_ha = 20.0, .burn_season_ha = 25.0}, 2);
  CHECK(plan::cost_of(tight) >= plan::cost_of(free) - 200'00);  // searches differ by chance
  CHECK(plan::bound_of(tight) <= plan::cost_of(tight));
  CHECK(tight.fits);
  CHECK(tight.farms[0].used[plan::burn_season] + tight.farms[1].used[plan::burn_season] <= 25.0 + 1e-6);
  CHECK(tight.farms[0].bound_cents == free.farms[0].bound_cents);  // what is shared is left out of it
  const plan::Region again = planned({.burn_day_ha = 20.0, .burn_season_ha = 25.0}, 1);
  CHECK(plan::cost_of(again) == plan::cost_of(tight));
  CHECK(again.farms[1].decision == tight.farms[1].decision);
}

TEST_CASE("the audit of a region finds shares overdrawn, limits passed, wrong sums and bounds", "[golden]") {
  const plan::Region region = planned({.burn_day_ha = 30.0, .burn_season_ha = 60.0, .flow_m3_s = 0.3}, 2);
  CHECK(audit::check_region(region).ok());
  const auto spoiled = [&](const char* rule, const auto& spoil) {
    plan::Region r = region;
    spoil(r);
    INFO(rule);
    CHECK(named(audit::check_region(r), rule));
  };
  spoiled("share overdrawn", [](plan::Region& r) {
    r.farms[1].used[plan::canal_flow] = r.farms[1].share[plan::canal_flow] + 0.01;
  });
  spoiled("shares beyond the limit", [](plan::Region& r) { r.farms[0].share[plan::burn_day] += 1.0; });
  spoiled("wrong sum", [](plan::Region& r) { r.farms[0].cost_cents += 100; });
  spoiled("wrong sum", [](plan::Region& r) { r.farms[0].fields[3].area_ha += 0.1; });
  spoiled("bound above the plan",
          [](plan::Region& r) { r.farms[0].bound_cents = r.farms[0].cost_cents + 1; });
  spoiled("wrong chance", [](plan::Region& r) { r.farms[0].fields[0].chance = 1.2; });
}
