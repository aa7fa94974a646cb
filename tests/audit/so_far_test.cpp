// Plans made in the middle of a season come through the audit clean, and what goes against the season so far
// is found.

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "gone_on.hpp"
#include "half_baled.hpp"
#include "random_decisions.hpp"
#include "sound_plan.hpp"

using namespace aftercut;

namespace {

farm::Problem cut_farm() {
  farm::Problem p = test::open_problem(3);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  p.farm.fields[0].lease = farm::WaterLease{make_date(2026, 11, 20), make_date(2027, 1, 20), Money{60.0}};
  p.farm.implements[1].hire->least_area = Hectare{40.0};
  p.farm.implements[1].hire->below_least = machinery::BelowLeast::charges_least;
  return p;
}

struct Taken {
  farm::Problem problem;
  plan::PlannedYears planned;
};

/// A random plan gone on to a day of one year, an owner's word and a look, and a plan made anew.
Taken taken_up(std::uint64_t seed, int day) {
  const farm::Problem p = cut_farm();
  const dispatch::Table whole = dispatch::make_table(p, 1);
  Draws draws{seed, stream_of("audit so far")};
  const auto year = static_cast<std::size_t>(draws.below(3));
  const plan::YearRun run = dispatch::run(whole, test::random_decision(whole, draws), year);
  Taken t{test::gone_on(p, run, year, day), {}};
  const Date today = t.problem.as_of;
  const int seq = static_cast<int>(t.problem.so_far.events.size());
  t.problem.so_far.events.push_back({seq + 1, today, farm::FieldSeen{.field = 2, .workable = false}});
  t.problem.so_far.events.push_back({seq + 2, today, farm::TooWet{4, today + 6}});
  t.planned = scenario::make_plan(
      t.problem, {.seed = seed, .threads = 1, .evaluations = 25, .bound_rounds = 1, .progress = {}});
  return t;
}

}  // namespace

TEST_CASE("plans from the middle of a season are clean", "[cross]") {
  for (const int day : {30, 48, 60, 85, 120, 150, 185, 205, 222, 240})
    for (const std::uint64_t seed : {1U, 2U}) {
      const Taken t = taken_up(seed, day);
      const audit::Audit a = audit::check(t.problem, t.planned);
      INFO("day " << day << " seed " << seed << "\n" << test::listed(a));
      CHECK(a.ok());
      CHECK(a.checks > 200);
    }
}

TEST_CASE("plans from fields that are baled in part are clean, and bales hauled twice are found", "[cross]") {
  Draws draws{4, stream_of("audit half baled")};
  int baled = 0, found = 0, hauls = 0;
  for (const int day : {40, 52, 64, 76}) {
    farm::Problem p = test::with_weather_so_far(cut_farm(), 0, day);
    const int haul = test::operation_at(p.farm.book, "haul");
    baled += test::bale_in_part(p, draws);
    plan::PlannedYears planned = scenario::make_plan(
        p, {.seed = 3, .threads = 1, .evaluations = 25, .bound_rounds = 1, .progress = {}});
    const audit::Audit a = audit::check(p, planned);
    INFO("day " << day << "\n" << test::listed(a));
    CHECK(a.ok());
    farm::Problem more = p;  // nobody had hauled anything
    std::erase_if(more.so_far.events, [&](const farm::Happened& h) {
      const auto* w = std::get_if<farm::WorkDone>(&h.what);
      return w != nullptr && w->operation == haul;
    });
    const bool has_haul =
        std::ranges::any_of(planned.runs[0].work, [&](const plan::Work& w) { return w.operation == haul; });
    hauls += has_haul ? 1 : 0;
    found += has_haul && !audit::check(more, planned).ok() ? 1 : 0;
  }
  CHECK(baled > 8);
  CHECK(hauls > 0);
  CHECK(found == hauls);
}

TEST_CASE("work against the season so far is found", "[cross]") {
  const Taken t = taken_up(1, 60);
  const auto found = [&](const farm::Problem& p, const plan::PlannedYears& planned, const char* rule) {
    const audit::Audit a = audit::check(p, planned);
    return std::ranges::any_of(a.violations, [&](const auto& v) { return v.rule == rule; });
  };
  farm::Problem shut = t.problem;
  for (std::size_t f = 0; f < 5; ++f)
    shut.so_far.events.push_back({1000 + static_cast<int>(f), shut.as_of, farm::TooWet{f, shut.as_of + 200}});
  CHECK(found(shut, t.planned, "work against the owner's word"));
  farm::Problem undone = t.problem;  // the entries are lost
  std::erase_if(undone.so_far.events,
                [](const farm::Happened& h) { return std::holds_alternative<farm::WorkDone>(h.what); });
  const audit::Audit lost = audit::check(undone, t.planned);
  CHECK(lost.count > 5);
  farm::Problem farther = t.problem;  // a pass more than the plan knew
  for (std::size_t f = 0; f < 5; ++f)
    farther.so_far.events.push_back({2000 + static_cast<int>(f), farther.as_of - 1,
                                     farm::WorkDone{.field = f,
                                                    .operation = t.planned.runs[0].work.front().operation,
                                                    .finishes = true,
                                                    .no_more = true}});
  CHECK(audit::check(farther, t.planned).count > 0);
}

TEST_CASE("straw sold before the plan's first day is nobody's amount any more", "[cross]") {
  farm::Problem p = cut_farm();
  p.farm.prices.straw_per_tonne = Money{31.0};
  p.farm.prices.straw_per_ha = p.farm.prices.straw_per_bale = {};
  const dispatch::Table whole = dispatch::make_table(p, 1);
  Draws draws{1, stream_of("baled")};
  plan::Decision baled = test::random_decision(whole, draws);
  const auto& recipes = p.farm.book.recipes;
  const auto bale = std::ranges::find(recipes, "bale", [](const auto& r) { return r.id.value; });
  REQUIRE(bale != recipes.end());
  std::ranges::fill(baled.method, static_cast<int>(bale - recipes.begin()));
  const plan::YearRun run = dispatch::run(whole, baled, 0);
  int compared = 0;
  std::vector<int> days;
  for (const plan::Work& w : run.work)
    if (p.farm.book.operations[static_cast<std::size_t>(w.operation)].effect.bale_share > 0.0)
      days.push_back(w.day + 1);
  REQUIRE(days.size() > 2);
  for (const int day : days) {
    const farm::Problem now = test::gone_on(p, run, 0, day);
    const auto planned = scenario::make_plan(
        now, {.seed = 1, .threads = 1, .evaluations = 25, .bound_rounds = 1, .progress = {}});
    const audit::Audit a = audit::check(now, planned);
    INFO("day " << day << "\n" << test::listed(a));
    CHECK(a.ok());
    for (const plan::FieldPlan& f : planned.plan.fields)
      for (const plan::BreakEven& b :
           f.chosen.next_best ? f.chosen.next_best->break_even : std::vector<plan::BreakEven>{})
        compared += b.of == plan::PriceOf::straw ? 1 : 0;
  }
  CHECK(compared > 0);
}
