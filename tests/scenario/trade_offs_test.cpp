// Trade-offs: each plan is whole and audited, none but the base is dominated, and each weight pulls its own
// way.

#include "aftercut/scenario/trade_offs.hpp"

#include <algorithm>
#include <set>

#include "aftercut/audit/audit.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

const farm::Problem& weighed_problem() {
  static const farm::Problem p = [] {
    farm::Problem made = test::small_problem(4);
    made.farm.fields[2].locked.reset();
    return made;
  }();
  return p;
}

const plan::TradeOffs& found() {
  static const plan::TradeOffs t =
      scenario::trade_offs(weighed_problem(), {.seed = 4, .threads = 2, .evaluations = 200, .progress = {}});
  return t;
}

plan::WeighedPlan with(std::int64_t cents, double chance, double co2e, double baled) {
  plan::WeighedPlan p;
  p.figures = {.cost_cents = cents, .chance = chance, .baled_t = baled};
  p.co2e_t = co2e;
  return p;
}

}  // namespace

TEST_CASE("a plan dominates when it is no worse in all four and better in one", "[identity]") {
  const auto a = with(100, 0.8, 50.0, 30.0);
  CHECK_FALSE(scenario::dominates(a, a));
  CHECK(scenario::dominates(with(99, 0.8, 50.0, 30.0), a));
  CHECK(scenario::dominates(with(100, 0.9, 50.0, 30.0), a));
  CHECK(scenario::dominates(with(100, 0.8, 49.0, 30.0), a));
  CHECK(scenario::dominates(with(100, 0.8, 50.0, 31.0), a));
  CHECK_FALSE(scenario::dominates(with(99, 0.8, 50.0, 29.0), a));
  CHECK_FALSE(scenario::dominates(with(99, 0.7, 50.0, 30.0), a));
}

TEST_CASE("every plan of a set is whole, audited, and beaten by none", "[cross]") {
  const auto& plans = found().plans;
  REQUIRE(plans.size() >= 2);
  CHECK(plans.front().name == "base");
  std::set<std::string> names;
  for (const plan::WeighedPlan& p : plans) {
    INFO(p.name);
    CHECK(audit::check(weighed_problem(), p.planned).ok());
    CHECK(names.insert(p.name).second);
    CHECK((p.name == "base" || !p.dominated));
    const bool beaten = std::ranges::any_of(plans, [&](const auto& q) { return scenario::dominates(q, p); });
    CHECK(beaten == p.dominated);
    CHECK(p.figures.cost_cents == p.planned.plan.cost_cents);
  }
  CHECK(found().searched == static_cast<int>(scenario::sweep_of_weights().size()));
  CHECK(static_cast<int>(plans.size()) + found().same + found().dropped == found().searched);
}

TEST_CASE("a weight changes the prices that it speaks of and no others", "[identity]") {
  const plan::Plan& base = found().plans.front().planned.plan;
  const farm::Farm& own = weighed_problem().farm;
  const farm::Farm same = scenario::weighed(weighed_problem(), {}, base).farm;
  CHECK(same.prices.straw_per_tonne.value() == own.prices.straw_per_tonne.value());
  CHECK(same.prices.burn_fee_per_ha.value() == own.prices.burn_fee_per_ha.value());
  const farm::Farm dear = scenario::weighed(weighed_problem(), {.late_times = 3.0}, base).farm;
  CHECK(dear.prices.unplanted_per_ha.value() == Approx(3.0 * own.prices.unplanted_per_ha.value()));
  CHECK(dear.prices.straw_per_tonne.value() == own.prices.straw_per_tonne.value());
  const farm::Farm air = scenario::weighed(weighed_problem(), {.co2e_per_t = 100.0}, base).farm;
  CHECK(air.prices.straw_per_tonne.value() == own.prices.straw_per_tonne.value());
  CHECK(air.prices.straw_per_ha.value() >
        own.prices.straw_per_ha.value());  // straw taken off rots nowhere here
}

TEST_CASE("a set does not depend on the number of threads", "[identity]") {
  const plan::TradeOffs one =
      scenario::trade_offs(weighed_problem(), {.seed = 4, .threads = 1, .evaluations = 200, .progress = {}});
  REQUIRE(one.plans.size() == found().plans.size());
  for (std::size_t k = 0; k < one.plans.size(); ++k) {
    CHECK(one.plans[k].name == found().plans[k].name);
    CHECK(one.plans[k].planned.plan.decision == found().plans[k].planned.plan.decision);
    CHECK(one.plans[k].co2e_t == found().plans[k].co2e_t);
  }
}
