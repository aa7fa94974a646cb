// Wishes of a plan, met or not, and what stands in the way of those that are not.

#include "aftercut/scenario/risk.hpp"

#include <algorithm>

#include "aftercut/farm/wishes.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/scenario/one_more.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

constexpr std::size_t weather_years = 10;

plan::PlannedYears plan_of_wishes(const farm::Problem& p, int threads = 1) {
  return scenario::make_plan(p, {.seed = 1, .threads = threads, .evaluations = 300, .progress = {}});
}

farm::Problem asking(double chance, farm::Risk risk = farm::Risk::both) {
  farm::Problem p = test::small_problem(weather_years);
  p.farm.target.wanted_chance = chance;
  p.farm.target.risk = risk;
  return p;
}

/// One person, four hours a day: work is what is scarce.
farm::Problem four_hours_a_day() {
  farm::Problem p = asking(0.8);
  p.farm.operators.resize(1);
  p.farm.operators[0].hours_per_day = Hours{5.0};
  for (farm::Field& f : p.farm.fields)
    if (farm::seedbed_due(f)) f.next.planting = make_date(2027, 4, 22);
  return p;
}

const plan::InTheWay* way_of(const plan::RiskTold& risk, int field) {
  const auto at = std::ranges::find(risk.in_the_way, field, &plan::InTheWay::field);
  return at == risk.in_the_way.end() ? nullptr : &*at;
}

bool words_say(const plan::InTheWay& way, const std::string& part) {
  return std::ranges::any_of(way.words,
                             [&](const std::string& w) { return w.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("wishes are told for each field with a seedbed due, by fold", "[cross]") {
  farm::Problem p = asking(0.6);
  p.farm.fields[1].next.wanted_chance = 0.2;
  const auto made = plan_of_wishes(p);
  const plan::RiskTold& risk = made.plan.risk;
  CHECK(risk.search_years == 5);
  CHECK(risk.shown_years == 5);
  CHECK(std::ranges::none_of(risk.wishes, [](const auto& w) { return w.field == 3; }));  // fallow
  for (const plan::Wish& w : risk.wishes) {
    const auto f = static_cast<std::size_t>(w.field);
    CHECK(w.chance == (f == 1 ? 0.2 : 0.6));
    int searched = 0, shown = 0;
    for (std::size_t y = 0; y < weather_years; ++y)
      (y % 2 == 0 ? searched : shown) += made.runs[y].fields[f].status == plan::Status::ready ? 1 : 0;
    CHECK(w.searched == searched);
    CHECK(w.shown == shown);
  }
}

TEST_CASE("a wish that is only told plays nothing more", "[identity]") {
  farm::Problem p = four_hours_a_day();
  p.farm.target.risk = farm::Risk::price;
  const auto made = plan_of_wishes(p);
  CHECK(std::ranges::any_of(made.plan.troubles,
                            [](const auto& t) { return t.name == "wanted chance not reached"; }));
  CHECK(made.plan.risk.in_the_way.empty());
}

TEST_CASE("a field cut after its planting date: its harvest day stands in the way", "[identity]") {
  farm::Problem p = asking(0.8);
  p.farm.fields[0].harvest = make_date(2027, 5, 2);
  p.farm.fields[0].summer_drain = make_date(2027, 4, 12);
  const auto made = plan_of_wishes(p);
  const plan::InTheWay* way = way_of(made.plan.risk, 0);
  REQUIRE(way != nullptr);
  CHECK(way->alone.ready == 0);
  CHECK(way->alone.failed == 5);
  CHECK(way->alone.days_standing == way->alone.days_looked_at);
  CHECK_FALSE(way->more);
  CHECK_FALSE(way->first);
  CHECK(words_say(*way, "stand in the way"));
  CHECK(words_say(*way, "the crop stands on"));
}

TEST_CASE("too few hands: fields could alone, and a second person or first place brings them there",
          "[cross]") {
  const farm::Problem p = four_hours_a_day();
  const auto made = plan_of_wishes(p);
  const plan::RiskTold& risk = made.plan.risk;
  REQUIRE_FALSE(risk.in_the_way.empty());
  const dispatch::Table t = dispatch::make_table(p, made.plan.seed);
  bool some = false;
  for (const plan::InTheWay& way : risk.in_the_way) {
    CHECK(way.ready < way.wanted);
    CHECK(way.own_method_alone <= way.alone.ready);
    CHECK(way.first.has_value() == (way.own_method_alone >= way.wanted));
    if (!way.first) continue;
    some = true;
    plan::Decision first = made.plan.decision;
    for (auto* list : {&first.autumn_order, &first.spring_order}) {
      std::erase(*list, way.field);
      list->insert(list->begin(), way.field);
    }
    int ready = 0;
    for (std::size_t y = 1; y < weather_years; y += 2)
      ready += dispatch::run(t, first, y).fields[static_cast<std::size_t>(way.field)].status ==
               plan::Status::ready;
    CHECK(way.first->ready == ready);
    if (way.more) CHECK(way.more->ready >= way.wanted);
    if (way.most) CHECK(way.most->ready < way.wanted);
    CHECK(words_say(way, "Alone on the farm it is ready in"));
    CHECK(words_say(way, "First in both lists"));
  }
  CHECK(some);
}

TEST_CASE("days of waiting lie before planting in the years that fail, each counted once", "[cross]") {
  farm::Problem p = asking(1.0);
  for (farm::Field& f : p.farm.fields)
    if (farm::seedbed_due(f)) f.next.planting = make_date(2027, 3, 20);
  const auto made = plan_of_wishes(p);
  REQUIRE_FALSE(made.plan.risk.in_the_way.empty());
  for (const plan::InTheWay& way : made.plan.risk.in_the_way) {
    int days = 0;
    for (const plan::StepWaited& s : way.alone.waits) days += s.all();
    CHECK(days <= way.alone.failed * way.alone.days_looked_at);
    if (way.alone.failed > 0 && way.alone.method != plan::none) CHECK(days > 0);
  }
}

TEST_CASE("what stands in the way is the same for any number of threads", "[identity]") {
  const auto one = plan_of_wishes(four_hours_a_day(), 1), two = plan_of_wishes(four_hours_a_day(), 2);
  REQUIRE(one.plan.risk.in_the_way.size() == two.plan.risk.in_the_way.size());
  for (std::size_t k = 0; k < one.plan.risk.in_the_way.size(); ++k)
    CHECK(one.plan.risk.in_the_way[k].words == two.plan.risk.in_the_way[k].words);
}

TEST_CASE("lateness: by the curve, by the price of a day, by neither", "[identity]") {
  farm::Problem p = asking(0.5, farm::Risk::price);
  const auto by_curve = plan_of_wishes(p).plan.risk.late_per_ha_day;
  REQUIRE(by_curve);
  p.farm.target.late_per_ha_day = Money{7.0};
  CHECK(plan_of_wishes(p).plan.risk.late_per_ha_day.value_or(0.0) == Approx(7.0).margin(0.01));
  p.farm.target.risk = farm::Risk::chance;
  const auto made = plan_of_wishes(p);
  CHECK_FALSE(made.plan.risk.late_per_ha_day);
  for (const auto& run : made.runs)
    for (const auto& f : run.fields) CHECK(f.cost.late == 0);
}

TEST_CASE("the bound stays below a plan whose lateness costs nothing", "[identity]") {
  for (const farm::Risk risk : {farm::Risk::price, farm::Risk::chance, farm::Risk::both}) {
    farm::Problem p = asking(0.8, risk);
    for (farm::Field& f : p.farm.fields)
      if (farm::seedbed_due(f)) f.next.planting = make_date(2027, 4, 5);
    const auto made = scenario::make_plan(
        p, {.seed = 1, .threads = 1, .evaluations = 200, .bound_rounds = 2, .progress = {}});
    REQUIRE(made.plan.bound_cents);
    CHECK(*made.plan.bound_cents <= made.plan.cost_cents);
  }
}

TEST_CASE("everything twice holds a second of each machine and person and the limits doubled", "[identity]") {
  const farm::Problem p = asking(0.8);
  const farm::Problem twice = scenario::with_all_twice(p);
  CHECK(twice.farm.operators.size() == 2 * p.farm.operators.size());
  CHECK(twice.farm.tractors.size() == 2 * p.farm.tractors.size());
  std::size_t own = 0;
  for (const auto& i : p.farm.implements) own += i.hire ? 0 : 1;
  CHECK(twice.farm.implements.size() == p.farm.implements.size() + own);
  for (const auto& fits : twice.farm.fits) CHECK(fits.size() == twice.farm.implements.size());
  if (p.farm.supply)
    CHECK(twice.farm.supply->most_flow.value() == Approx(2.0 * p.farm.supply->most_flow.value()));
  for (const auto& w : scenario::with_each_twice(p))
    if (w.of.kind == "operator") CHECK(w.problem.farm.operators.size() == p.farm.operators.size() + 1);
}
