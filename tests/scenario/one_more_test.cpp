// The worth of a little more: it is what the dispatch says of the same plan with more, and nothing where the
// plan cannot use it.

#include "aftercut/scenario/one_more.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "aftercut/planner/search.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

/// One person for all fields: her hours are scarce.
const farm::Problem& one_person() {
  static const farm::Problem p = [] {
    farm::Problem made = test::small_problem(6);
    made.farm.operators.resize(1);
    made.farm.operators[0].hours_per_day = Hours{4.0};
    return made;
  }();
  return p;
}

const plan::Decision& all_disked() {
  static const plan::Decision d =
      test::decide(one_person().farm, {"chop_disk", "chop_disk", "chop_disk", "leave", "chop_disk"});
  return d;
}

const dispatch::Table& table() {
  static const dispatch::Table t = dispatch::make_table(one_person(), 3);
  return t;
}

plan::OneMore worked_out(int plans, int threads) {
  return scenario::one_more(
      {.table = &table(), .decision = &all_disked(), .plans = plans, .threads = threads, .progress = {}});
}

const plan::MoreOf& thing(const plan::OneMore& all, const std::string& kind, const std::string& id) {
  const auto at =
      std::ranges::find_if(all.things, [&](const auto& of) { return of.kind == kind && of.id == id; });
  REQUIRE(at != all.things.end());
  return *at;
}

double mean_cost(const farm::Problem& p) {
  const dispatch::Table t = dispatch::make_table(p, 3);
  std::vector<std::size_t> years(t.drivers.size());
  std::iota(years.begin(), years.end(), std::size_t{0});
  return static_cast<double>(planner::costs_of(t, {all_disked()}, years, 1).front()) / 100.0 /
         static_cast<double>(years.size());
}

}  // namespace

TEST_CASE("with one plan, a worth is the difference of two dispatches", "[cross]") {
  const plan::OneMore all = worked_out(1, 1);
  const std::string who = one_person().farm.operators[0].id.value;
  farm::Problem longer = one_person();
  longer.farm.operators[0].hours_per_day = Hours{4.4};
  CHECK(thing(all, "operator", who).worth == Approx(mean_cost(one_person()) - mean_cost(longer)));
  CHECK(thing(all, "operator", who).error == 0.0);
  farm::Problem more_water = one_person();
  more_water.farm.supply->most_flow = CubicMetrePerDay{1.1 * more_water.farm.supply->most_flow.value()};
  CHECK(thing(all, "canal_flow", "").worth == Approx(mean_cost(one_person()) - mean_cost(more_water)));
}

TEST_CASE("hours of the only person are worth something, and most of it lies in weeks of work",
          "[identity]") {
  const plan::OneMore all = worked_out(8, 2);
  const plan::MoreOf& her = thing(all, "operator", one_person().farm.operators[0].id.value);
  CHECK(her.worth > 0.0);
  CHECK(her.told());
  REQUIRE_FALSE(her.weeks.empty());
  double hours = 0.0;
  for (const plan::MoreInWeek& w : her.weeks) {
    CHECK(w.first_day % 7 == 0);
    hours += w.more;
  }
  CHECK(hours <= her.more + 1e-9);
}

TEST_CASE("what the plan has no work for is worth nothing", "[identity]") {
  const plan::OneMore all = worked_out(2, 1);
  const plan::YearRun run = dispatch::run(table(), all_disked(), 0);
  for (const plan::MoreOf& of : all.things) {
    INFO(of.kind << " " << of.id);
    CHECK(of.error >= 0.0);
    CHECK(of.more > 0.0);
    if (of.kind == "canal_flow" || of.kind.starts_with("burn")) CHECK(of.worth == 0.0);
    if (of.kind == "implement") {
      const auto& list = one_person().farm.implements;
      const auto at = std::ranges::find_if(list, [&](const auto& i) { return i.id.value == of.id; });
      if (at->kind == "bale_wagon" || at->kind == "rake") CHECK(of.worth == 0.0);
    }
  }
}

TEST_CASE("worths do not depend on the number of threads", "[identity]") {
  const plan::OneMore one = worked_out(3, 1), two = worked_out(3, 2);
  REQUIRE(one.things.size() == two.things.size());
  for (std::size_t k = 0; k < one.things.size(); ++k) {
    CHECK(one.things[k].worth == two.things[k].worth);
    CHECK(one.things[k].error == two.things[k].error);
    CHECK(one.things[k].weeks.size() == two.things[k].weeks.size());
  }
}

TEST_CASE("neighbours keep the methods and hold every field once", "[identity]") {
  const auto plans = scenario::neighbours_of(all_disked(), 5, 9);
  REQUIRE(plans.size() == 5);
  CHECK(plans[0] == all_disked());
  std::size_t differ = 0;
  for (const plan::Decision& d : plans) {
    CHECK(d.method == all_disked().method);
    for (const auto* list : {&d.autumn_order, &d.spring_order}) {
      auto sorted = *list;
      std::ranges::sort(sorted);
      for (std::size_t k = 0; k < sorted.size(); ++k) CHECK(sorted[k] == static_cast<int>(k));
    }
    differ += d == all_disked() ? 0 : 1;
  }
  CHECK(differ >= 2);
  CHECK(scenario::neighbours_of(all_disked(), 5, 9) == plans);
}

TEST_CASE("a tenth more is a tenth more", "[identity]") {
  const farm::Problem p = test::small_problem(2);
  const auto things = scenario::with_a_tenth_more(p);
  for (const auto& w : things) {
    INFO(w.of.kind << " " << w.of.id);
    if (w.of.kind == "implement") CHECK(w.problem.farm.implements.size() == p.farm.implements.size() + 1);
    if (w.of.kind == "tractor") CHECK(w.problem.farm.tractors.size() == p.farm.tractors.size() + 1);
    if (w.of.kind == "burn_day_area")
      CHECK(*burn::limits_of(*w.problem.farm.burning).daily_area_ha ==
            Approx(1.1 * *burn::limits_of(*p.farm.burning).daily_area_ha));
    if (w.of.kind == "burn_season_area") CHECK(w.of.more > 0.0);
  }
  CHECK(std::ranges::any_of(things, [](const auto& w) { return w.of.kind == "hired_days"; }));
}

TEST_CASE("a limit that is a tenth more on every day is the limit a tenth higher", "[identity]") {
  const farm::Problem p = test::small_problem(4);
  const dispatch::Table base = dispatch::make_table(p, 3);
  const plan::Decision d = test::decide(p.farm, {"roll_flood", "burn", "flood", "roll_flood", "burn"});
  const std::vector<double> always(static_cast<std::size_t>(p.farm.season.days), 1.1);
  for (const auto& w : scenario::with_a_tenth_more(p)) {
    if (w.of.kind != "canal_flow" && w.of.kind != "burn_day_area") continue;
    INFO(w.of.kind);
    const dispatch::Table more = dispatch::make_table(w.problem, 3);
    dispatch::Table by_day = base;
    (w.of.kind == "canal_flow" ? by_day.flow_times : by_day.burn_area_times) = always;
    for (std::size_t y = 0; y < 4; ++y) CHECK(dispatch::run(by_day, d, y) == dispatch::run(more, d, y));
  }
}

TEST_CASE("burn area of a day has weeks, those with a burn, and a season's has none", "[identity]") {
  farm::Problem p = test::small_problem(8);
  p.farm.fields[1].disease_finding = true;
  test::put(*p.farm.burning, "season_share", "100", "%");
  p.farm.burning->burn_day_chance = 0.04;  // a day missed is a burn missed
  const double both = p.farm.fields[1].area.value() + p.farm.fields[4].area.value();
  test::put(*p.farm.burning, "daily_area", fmt::format("{}", 0.95 * both).c_str(), "ha");
  const dispatch::Table t = dispatch::make_table(p, 3);
  const plan::Decision d = test::decide(p.farm, {"leave", "burn", "leave", "leave", "burn"});
  const auto all = scenario::one_more(
      {.table = &t, .decision = &d, .plans = 2, .threads = 1, .progress = {}, .only_kind = "burn_day_area"});
  const plan::MoreOf& area = thing(all, "burn_day_area", "");
  INFO(area.worth << " +- " << area.error);
  REQUIRE(area.told());
  REQUIRE_FALSE(area.weeks.empty());
  for (const plan::MoreInWeek& w : area.weeks) {
    CHECK(w.more == area.more);
    bool burns = false;
    for (std::size_t y = 0; y < 8; ++y)
      for (const plan::Work& work : dispatch::run(t, d, y).work)
        burns = burns || (p.farm.book.operations[static_cast<std::size_t>(work.operation)].burning &&
                          work.day / 7 == w.first_day / 7);
    CHECK(burns);
  }
}
