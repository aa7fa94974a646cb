#include "aftercut/planner/wishes.hpp"

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/planner/walk.hpp"
#include "catch2/catch.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

constexpr std::size_t weather_years = 8;

/// One person with short days and an early planting date: not every field can be ready in every year.
farm::Problem hurried(double chance, farm::Risk risk) {
  farm::Problem p = test::open_problem(weather_years);
  p.farm.operators.resize(1);
  p.farm.operators[0].hours_per_day = Hours{5.0};
  p.farm.target.wanted_chance = chance;
  p.farm.target.risk = risk;
  for (farm::Field& f : p.farm.fields)
    if (f.next.kind != farm::NextUseKind::fallow) f.next.planting = make_date(2027, 4, 20);
  return p;
}

planner::Found found(const farm::Problem& p, int threads = 1) {
  const dispatch::Table t = dispatch::make_table(p, 1);
  return planner::search({.table = &t,
                          .years = first_numbers(weather_years),
                          .seed = 3,
                          .threads = threads,
                          .evaluations = 1200,
                          .progress = {}});
}

/// By the dispatch, of the wishes of `asked`.
planner::Merit merit(const farm::Problem& asked, const plan::Decision& d) {
  const dispatch::Table t = dispatch::make_table(asked, 1);
  return planner::merits_of(t, {d}, first_numbers(weather_years), 1,
                            planner::least_ready(asked.farm, weather_years))
      .front();
}

}  // namespace

TEST_CASE(
    "years asked of a field: its own chance, nothing where no seedbed is due or the chance does not bind",
    "[identity]") {
  farm::Problem p = hurried(0.75, farm::Risk::both);
  p.farm.fields[1].next.wanted_chance = 0.9;
  const auto least = planner::least_ready(p.farm, 10);
  CHECK(least[0] == 8);
  CHECK(least[1] == 9);
  for (std::size_t f = 0; f < least.size(); ++f)
    if (p.farm.fields[f].next.kind == farm::NextUseKind::fallow) CHECK(least[f] == 0);
  p.farm.target.risk = farm::Risk::price;
  CHECK(planner::least_ready(p.farm, 10).empty());
}

TEST_CASE("what is short counts before money, and by hectares", "[identity]") {
  const farm::Problem p = hurried(0.5, farm::Risk::both);
  const planner::LeastReady least{4, 0, 0, 0, 0};
  CHECK(planner::short_ha_years(p.farm, least, {1, 0, 0, 0, 0}) ==
        Approx(3.0 * p.farm.fields[0].area.value()));
  CHECK(planner::short_ha_years(p.farm, least, {6, 0, 0, 0, 0}) == 0.0);
  CHECK(planner::Merit{0.0, 900.0} < planner::Merit{1.0, 100.0});
  CHECK(planner::Merit{1.0, 100.0} < planner::Merit{1.0, 200.0});
}

TEST_CASE("a missing year costs more while a field stays short, and less once it is not", "[identity]") {
  const farm::Problem p = hurried(0.5, farm::Risk::both);
  const planner::LeastReady least{4, 4, 0, 0, 0};
  planner::ShortPrices prices{p.farm, least, 1e6, weather_years};
  const std::vector<int> one_short{3, 4, 0, 0, 0}, other_short{4, 3, 0, 0, 0};
  const double first = prices.cents(one_short), second = prices.cents(other_short);
  CHECK(first > 0.0);
  CHECK(prices.cents({4, 9, 0, 0, 0}) == 0.0);
  CHECK(prices.cents({2, 4, 0, 0, 0}) == Approx(2.0 * first));
  for (int k = 0; k < 50; ++k) prices.learn(one_short);
  CHECK(prices.cents(one_short) > 1.5 * first);
  CHECK(prices.cents(other_short) < second);
  for (int k = 0; k < 5000; ++k) prices.learn(one_short);
  const double most = prices.cents(one_short);
  prices.learn(one_short);
  CHECK(prices.cents(one_short) == Approx(most));  // it stops somewhere
}

TEST_CASE("a search with wishes is less short of them than one that weighs money alone", "[cross]") {
  const auto for_money = found(hurried(0.75, farm::Risk::price));
  const farm::Problem asked = hurried(0.75, farm::Risk::both);
  const auto for_both = found(asked);
  const auto money = merit(asked, for_money.decision), both = merit(asked, for_both.decision);
  INFO(money.short_ha_years << " ha-years, " << money.cents << " against " << both.short_ha_years << ", "
                            << both.cents);
  REQUIRE(money.short_ha_years > 0.0);  // else the farm asks for nothing
  CHECK(both.short_ha_years < money.short_ha_years);
  CHECK(for_both.short_ha_years == both.short_ha_years);
  CHECK(static_cast<double>(for_both.cost) == both.cents);
}

TEST_CASE("a wish of nothing changes nothing, and threads do not matter", "[identity]") {
  CHECK(found(hurried(0.0, farm::Risk::both)).short_ha_years == 0.0);
  CHECK(found(hurried(0.75, farm::Risk::both), 2).decision ==
        found(hurried(0.75, farm::Risk::both), 1).decision);
}

TEST_CASE("what a walk says is short is what its quick runs count", "[cross]") {
  const farm::Problem p = hurried(0.75, farm::Risk::both);
  const dispatch::Table t = dispatch::make_table(p, 1);
  Draws draws{5, stream_of("start")};
  const auto least = planner::least_ready(p.farm, weather_years);
  const plan::Decision start = test::random_decision(t, draws);
  const planner::Walked w = planner::walk({.table = &t,
                                           .years = first_numbers(weather_years),
                                           .start = start,
                                           .moves = 600,
                                           .least_ready = least,
                                           .draws = Draws{1, 1},
                                           .progress = {}});
  const auto before = merit(p, start), after = merit(p, w.decision);
  CHECK(after.short_ha_years < before.short_ha_years);
  // Quick runs share spells of pasts that are nearly the same: a field-year may turn.
  CHECK(w.short_ha_years == Approx(after.short_ha_years).margin(0.05 * before.short_ha_years + 30.0));
}
