#include "aftercut/planner/bound.hpp"

#include <algorithm>

#include "aftercut/core/require.hpp"
#include "aftercut/planner/search.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"
#include "random_decisions.hpp"

using namespace aftercut;
using namespace aftercut::planner;

namespace {

std::vector<std::size_t> all_years(const dispatch::Table& t) {
  std::vector<std::size_t> years(t.drivers.size());
  std::iota(years.begin(), years.end(), std::size_t{0});
  return years;
}

std::vector<DayPrices> no_prices(const BoundModel& m) {
  return std::vector<DayPrices>(m.years.size(), DayPrices(m.resources.minutes.size(), 0.0));
}

}  // namespace

TEST_CASE("no plan of 200 drawn at random costs less than the bound, under any prices", "[identity]") {
  const farm::Problem p = test::open_problem(5);
  const dispatch::Table t = dispatch::make_table(p, 3);
  const auto years = all_years(t);
  const BoundModel m = make_bound_model(t, years, 1);
  std::vector<plan::Decision> plans;
  for (std::uint64_t k = 0; k < 200; ++k) {
    Draws draws{5, stream_of("plan"), k};
    plans.push_back(test::random_decision(t, draws));
  }
  const auto costs = costs_of(t, plans, years, 1);
  const auto least = static_cast<double>(*std::min_element(costs.begin(), costs.end()));
  for (std::uint64_t k = 0; k < 20; ++k) {
    Draws draws{6, stream_of("prices"), k};
    std::vector<DayPrices> prices = no_prices(m);
    for (DayPrices& year : prices)
      for (double& price : year)
        if (k > 0 && draws.below(4) == 0) price = 20.0 * draws.uniform();
    CHECK(evaluate(m, prices, 1).cents <= least);
  }
}

TEST_CASE("prices below zero and a year left out prove nothing and are refused", "[identity]") {
  const farm::Problem p = test::small_problem(2);
  const dispatch::Table t = dispatch::make_table(p, 1);
  const BoundModel m = make_bound_model(t, all_years(t), 1);
  std::vector<DayPrices> prices = no_prices(m);
  prices.back().front() = -1.0;
  CHECK_THROWS_AS(evaluate(m, prices, 1), InternalError);
  prices.pop_back();
  CHECK_THROWS_AS(evaluate(m, prices, 1), InternalError);
}

TEST_CASE("a method's part of the bound is below what it costs alone", "[identity]") {
  const farm::Problem p = test::open_problem(6);
  const dispatch::Table t = dispatch::make_table(p, 1);
  const auto years = all_years(t);
  const BoundModel m = make_bound_model(t, years, 1);
  const Evaluated e = evaluate(m, no_prices(m), 1);
  for (std::size_t f = 0; f < t.why_not.size(); ++f)
    for (std::size_t r = 0; r < t.why_not[f].size(); ++r) {
      if (!t.why_not[f][r].empty()) continue;
      plan::Decision d;
      d.method.assign(t.why_not.size(), plan::none);
      d.method[f] = static_cast<int>(r);
      d.autumn_order = d.spring_order = {static_cast<int>(f)};
      CAPTURE(f, p.farm.book.recipes[r].id.value);
      CHECK(e.by_method[f][r] <=
            static_cast<double>(costs_of(t, {d}, years, 1, {.only_field = static_cast<int>(f)}).front()));
    }
}

TEST_CASE("the climb never falls below the bound without prices, and threads do not matter", "[identity]") {
  const farm::Problem p = test::small_problem(4);
  const dispatch::Table t = dispatch::make_table(p, 1);
  const auto years = all_years(t);
  const BoundModel m = make_bound_model(t, years, 2);
  const Found found = search({&t, years, 1, 1, 40, {}});
  const auto plan_cents = static_cast<double>(found.cost);
  const Bound one = lower_bound({&m, plan_cents, 15, 1, {}});
  const Bound two = lower_bound({&m, plan_cents, 15, 2, {}});
  CHECK(one.cents >= one.without_prices - 2.0);  // rounded down to a whole cent
  CHECK(one.cents <= plan_cents);
  CHECK(one.cents == two.cents);
  CHECK(one.prices == two.prices);
  CHECK(one.cents <= evaluate(m, one.prices, 1).cents);
}
