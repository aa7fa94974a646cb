// The proof of the bound: sound as it is made, and each change of it is named by its rule.

#include "aftercut/audit/bound_proof.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "aftercut/planner/bound_proof.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "bounded_plan.hpp"
#include "catch2/catch.hpp"
#include "random_decisions.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

/// The first multiplier of the first year that has one.
plan::BoundYear& charged_year(plan::BoundProof& b) {
  return *std::ranges::find_if(b.years, [](const auto& y) { return !y.prices.empty(); });
}

plan::MethodFloor& least(plan::BoundProof& b, std::size_t field) {
  auto& f = b.fields[field];
  return *std::ranges::find_if(f.methods, [&](const auto& m) { return m.method == f.method; });
}

struct BoundChange {
  const char* rule;
  std::function<void(plan::BoundProof&)> make;
};

void check_bound_changes(const std::vector<BoundChange>& changes) {
  for (const BoundChange& change : changes) {
    plan::PlannedYears planned = bounded_plan();
    change.make(*planned.bound);
    const auto rules = broken_rules(bounded_problem(), planned);
    std::string found;
    for (const auto& r : rules) found += r + "; ";
    INFO("expected " << change.rule << ", found " << found);
    CHECK(rules.contains(change.rule));
  }
}

/// What the bound charges the plan's method on the field.
plan::MethodFloor& of_plan(plan::BoundProof& b, std::size_t field) {
  return *std::ranges::find_if(b.fields[field].methods, [&](const auto& m) {
    return m.method == bounded_plan().plan.decision.method[field];
  });
}

/// Raises what the bound charges the field's method in one year, and all that hangs on it.
void charge_more(plan::BoundProof& b, std::size_t field, std::size_t year, double cents) {
  least(b, field).by_year[year] += cents;
  least(b, field).cents += cents;
  b.cents += static_cast<std::int64_t>(cents);
}

plan::BoundProof worked_out_again(const plan::PlannedYears& planned) {
  const auto table = dispatch::make_table(bounded_problem(), planned.plan.seed);
  const auto model = planner::make_bound_model(table, {0, 1, 2}, 1);
  return planner::proof_of(model, planner::prices_of(model, *planned.bound), planned.plan.decision.method,
                           planned.bound->rounds, 1);
}

}  // namespace

TEST_CASE("a bound as it is made holds, has multipliers and is what they give", "[cross]") {
  const auto& planned = bounded_plan();
  REQUIRE(planned.bound);
  const audit::Audit a = audit::check(bounded_problem(), planned);
  INFO(listed(a));
  CHECK(a.ok());
  CHECK(planned.plan.bound_cents == planned.bound->cents_a_year);
  CHECK(planned.bound->cents > planned.bound->without_prices);
  CHECK(planned.bound->fields[4].methods.empty());
  CHECK(audit::can_be_put_in(bounded_problem(), planned.plan, *planned.bound));
  CHECK(audit::compare_bounds(bounded_problem().farm, *planned.bound, worked_out_again(planned)).ok());
}

TEST_CASE("a changed multiplier is named", "[cross]") {
  const auto day_of = [](plan::BoundProof& b) -> plan::MinutePrice& {
    return *std::ranges::max_element(charged_year(b).prices, {}, &plan::MinutePrice::cents);
  };
  check_bound_changes(
      {{"multiplier below zero", [&](auto& b) { day_of(b).cents = -1e-9; }},
       {"multiplier below zero", [&](auto& b) { day_of(b).cents = std::numeric_limits<double>::infinity(); }},
       {"multiplier below zero", [&](auto& b) { day_of(b).cents = std::nan(""); }},
       {"unknown multiplier", [&](auto& b) { day_of(b).index = 99; }},
       {"unknown multiplier", [&](auto& b) { day_of(b).day = small_season_days; }},
       {"unknown multiplier", [&](auto& b) { day_of(b).day = -1; }},
       {"multiplier twice", [&](auto& b) { charged_year(b).prices.push_back(day_of(b)); }},
       {"wrong sum paid back", [&](auto& b) { day_of(b).cents *= 1.001; }},
       {"wrong sum paid back",
        [&](auto& b) {
          charged_year(b).prices.erase(
              std::ranges::max_element(charged_year(b).prices, {}, &plan::MinutePrice::cents));
        }},
       {"wrong sum paid back", [&](auto& b) { charged_year(b).paid_back *= 0.999; }},
       {"wrong bound", [&](auto& b) { charged_year(b).paid_back -= 3.0; }}});
}

TEST_CASE("changed years of the bound are named", "[cross]") {
  check_bound_changes({{"years of the bound", [](auto& b) { b.years.pop_back(); }},
                       {"years of the bound", [](auto& b) { b.years.push_back(b.years.front()); }},
                       {"years of the bound", [](auto& b) { b.years[1] = b.years[0]; }},
                       {"years of the bound", [](auto& b) { b.years[0].year = 1950; }},
                       {"years of the bound", [](auto& b) { std::swap(b.years[0], b.years[1]); }}});
}

TEST_CASE("changed costs of methods in the bound are named", "[cross]") {
  check_bound_changes({{"wrong sum of a method in the bound", [](auto& b) { least(b, 0).cents += 5.0; }},
                       {"wrong sum of a method in the bound", [](auto& b) { least(b, 1).by_year[2] += 5.0; }},
                       {"wrong bound", [](auto& b) { charge_more(b, 2, 1, 500.0), b.cents -= 500; }},
                       {"bound above a field's own work", [](auto& b) { of_plan(b, 0).by_year[1] += 1e7; }},
                       {"bound above a field's own work", [](auto& b) { of_plan(b, 3).by_year[2] += 1e7; }},
                       {"bound above the plan", [](auto& b) { charge_more(b, 0, 1, 1e8); }},
                       {"method of the bound not the least",
                        [](auto& b) {
                          auto& f = b.fields[0];
                          for (const auto& m : f.methods)
                            if (m.method != f.method) f.method = m.method;
                        }},
                       {"method of the bound not the least",
                        [](auto& b) {
                          auto& f = b.fields[0];
                          for (auto& m : f.methods)
                            if (m.method != f.method) m.cents = least(b, 0).cents - 1.0;
                        }},
                       {"methods of the bound", [](auto& b) { b.fields[0].methods.pop_back(); }},
                       {"methods of the bound", [](auto& b) { b.fields[4] = b.fields[3]; }},
                       {"methods of the bound", [](auto& b) { b.fields.pop_back(); }},
                       {"years of a method in the bound", [](auto& b) { least(b, 1).by_year.clear(); }},
                       {"years of a method in the bound", [](auto& b) { least(b, 1).by_year.pop_back(); }}});
}

TEST_CASE("a bound that its parts do not give is named, by a cent too", "[cross]") {
  check_bound_changes({{"wrong bound", [](auto& b) { b.cents += 1; }},
                       {"wrong bound", [](auto& b) { b.cents -= 1; }},
                       {"wrong bound", [](auto& b) { b.cents_a_year += 1; }}});
  plan::PlannedYears planned = bounded_plan();
  *planned.plan.bound_cents += 1;
  CHECK(broken_rules(bounded_problem(), planned).contains("wrong bound"));
  planned = bounded_plan();
  planned.bound.reset();
  CHECK(broken_rules(bounded_problem(), planned) == std::set<std::string>{"bound without its multipliers"});
  planned = bounded_plan();
  planned.plan.bound_cents.reset();
  CHECK(broken_rules(bounded_problem(), planned).contains("multipliers without a bound"));
}

TEST_CASE("a lock leaves a field of the bound its one method", "[cross]") {
  farm::Problem locked = bounded_problem();
  locked.farm.fields[0].locked = locked.farm.book.recipes[0].id;
  CHECK(broken_rules(locked, bounded_plan()).contains("methods of the bound"));
}

TEST_CASE("multipliers that are put in again show what was raised in step", "[cross]") {
  const auto again = worked_out_again(bounded_plan());
  const auto differs = [&](const std::function<void(plan::BoundProof&)>& change) {
    plan::BoundProof b = *bounded_plan().bound;
    change(b);
    const auto found = audit::compare_bounds(bounded_problem().farm, b, again);
    return std::ranges::any_of(found.violations,
                               [](const auto& v) { return v.rule == "bound not what its multipliers give"; });
  };
  CHECK(differs([](auto& b) { charge_more(b, 1, 0, 40.0); }));
  CHECK(differs([](auto& b) { b.without_prices += 5000; }));
  CHECK(differs([](auto& b) { b.fields[0].methods.back().cents *= 1.00001; }));
  CHECK_FALSE(differs([](auto& b) { b.fields[0].methods.back().cents *= 1.0000001; }));
  plan::PlannedYears raised = bounded_plan();  // a multiplier raised, all that the audit's sums see in step
  auto& prices = charged_year(*raised.bound).prices;
  plan::MinutePrice& p = *std::ranges::max_element(prices, {}, &plan::MinutePrice::cents);
  p.cents += 25.0;
  const auto from_it = worked_out_again(raised);
  CHECK_FALSE(audit::compare_bounds(bounded_problem().farm, *raised.bound, from_it).ok());
}

TEST_CASE("a negative, unknown or second multiplier cannot be put in", "[identity]") {
  const auto usable = [](const std::function<void(plan::BoundProof&)>& change) {
    plan::BoundProof b = *bounded_plan().bound;
    change(b);
    return audit::can_be_put_in(bounded_problem(), bounded_plan().plan, b);
  };
  CHECK(usable([](auto&) {}));
  CHECK_FALSE(usable([](auto& b) { charged_year(b).prices.front().cents = -1.0; }));
  CHECK_FALSE(usable([](auto& b) { charged_year(b).prices.front().index = -1; }));
  CHECK_FALSE(usable([](auto& b) { b.years.pop_back(); }));
}

TEST_CASE("under any multipliers no field's bound is above what random plans do on it", "[cross]") {
  const farm::Problem problem = open_problem(3);
  const auto table = dispatch::make_table(problem, 5);
  const auto model = planner::make_bound_model(table, {0, 1, 2}, 2);
  for (std::uint64_t k = 0; k < 12; ++k) {
    Draws draws{5, stream_of("plan"), k};
    plan::PlannedYears planned = scenario::make_plan(
        problem, {.seed = 5, .threads = 2, .progress = {}, .decision = random_decision(table, draws)});
    std::vector<planner::DayPrices> prices(3, planner::DayPrices(model.resources.minutes.size(), 0.0));
    for (auto& year : prices)
      for (double& price : year)
        if (k > 0 && draws.below(4) == 0) price = 20.0 * draws.uniform();
    planned.bound = planner::proof_of(model, prices, planned.plan.decision.method, 0, 2);
    planned.plan.bound_cents = planned.bound->cents_a_year;
    const audit::Audit a = audit::check(problem, planned);
    INFO(k << "\n" << listed(a));
    CHECK(a.ok());
  }
}
