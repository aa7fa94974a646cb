// A season taken up in the middle goes on as it would have gone on by itself.

#include "aftercut/dispatch/quick_runs.hpp"
#include "catch2/catch.hpp"
#include "gone_on.hpp"
#include "half_baled.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

/// Every field is cut, so that its lay is a fact whatever the method.
farm::Problem cut_farm(int years) {
  farm::Problem p = test::open_problem(years);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  return p;
}

std::vector<plan::Work> from_day(std::vector<plan::Work> work, int day) {
  std::erase_if(work, [&](const plan::Work& w) { return w.day < day; });
  for (plan::Work& w : work) w.fell_back = false;  // what took over is the method now
  return work;
}

struct Compared {
  int runs = 0, same_work = 0, same_ready = 0, stretches = 0;
};

Compared taken_up_again(const farm::Problem& p, const std::vector<int>& days, int decisions) {
  const dispatch::Table whole = dispatch::make_table(p, 1);
  Draws draws{5, stream_of("take-up")};
  Compared c;
  for (int k = 0; k < decisions; ++k) {
    const plan::Decision decision = test::random_decision(whole, draws);
    for (std::size_t y = 0; y < p.years.years.size(); ++y) {
      const plan::YearRun run = dispatch::run(whole, decision, y);
      for (const int day : days) {
        const farm::Problem now = test::gone_on(p, run, y, day);
        const dispatch::Table table = dispatch::make_table(now, 1);
        const plan::YearRun rest = dispatch::run(table, test::going_on(p.farm, decision, run, day), y);
        const auto expected = from_day(run.work, day), found = from_day(rest.work, day);
        ++c.runs;
        c.stretches += static_cast<int>(expected.size());
        c.same_work += expected == found ? 1 : 0;
        bool ready = true;
        for (std::size_t f = 0; f < run.fields.size(); ++f)
          ready =
              ready && (run.fields[f].ready_day < day || run.fields[f].ready_day == rest.fields[f].ready_day);
        c.same_ready += ready ? 1 : 0;
      }
    }
  }
  return c;
}

}  // namespace

TEST_CASE("a season taken up in the middle goes on as it was", "[identity]") {
  const Compared c = taken_up_again(cut_farm(3), {40, 75, 110, 150, 190, 215, 230}, 12);
  INFO(c.runs << " runs, " << c.stretches << " stretches, same work in " << c.same_work << ", ready in "
              << c.same_ready);
  CHECK(c.stretches > 2000);
  CHECK(c.same_work == c.runs);
  CHECK(c.same_ready == c.runs);
}

namespace {

struct QuickBesideRuns {
  int fields = 0, differ = 0;
  std::int64_t cents = 0;
};

/// Decisions drawn on this morning: each field's year by the quick runs beside the runs.
void compare_quick(const farm::Problem& now, Draws& draws, QuickBesideRuns& c) {
  const dispatch::Table table = dispatch::make_table(now, 1);
  dispatch::QuickRuns quick{table, dispatch::Likeness{}};
  for (int k = 0; k < 4; ++k) {
    const plan::Decision decision = test::random_decision(table, draws);
    for (std::size_t year = 0; year < now.years.years.size(); ++year) {
      const plan::YearRun slow = dispatch::run(table, decision, year);
      const dispatch::QuickRecord fast = quick.run(decision, year);
      for (std::size_t f = 0; f < slow.fields.size(); ++f) {
        ++c.fields;
        c.cents += slow.fields[f].cost.out_of_pocket();
        c.differ += fast.fields[f].cents == slow.fields[f].cost.out_of_pocket() &&
                            fast.fields[f].ready_day == slow.fields[f].ready_day
                        ? 0
                        : 1;
      }
    }
  }
}

}  // namespace

TEST_CASE("quick runs cost what the runs do from the middle of a season on", "[cross]") {
  farm::Problem p = cut_farm(3);
  p.farm.supply.reset();  // no water is shared
  const dispatch::Table whole = dispatch::make_table(p, 1);
  Draws draws{17, stream_of("quick-take-up")};
  QuickBesideRuns c;
  for (int k = 0; k < 6; ++k)
    for (const int day : {45, 80, 120, 200, 225}) {
      const auto y = static_cast<std::size_t>(k % 3);
      const plan::YearRun run = dispatch::run(whole, test::random_decision(whole, draws), y);
      compare_quick(test::gone_on(p, run, y, day), draws, c);
    }
  INFO(c.fields << " fields and years, " << c.differ << " differ, " << c.cents << " cents");
  CHECK(c.fields == 1800);
  CHECK(c.cents > 0);
  CHECK(c.differ == 0);
}

TEST_CASE("quick runs cost what the runs do where fields are baled in part", "[cross]") {
  farm::Problem p = cut_farm(3);
  p.farm.supply.reset();
  Draws draws{18, stream_of("quick half baled")};
  QuickBesideRuns c;
  int baled = 0;
  for (int k = 0; k < 12; ++k) {
    farm::Problem now = test::with_weather_so_far(p, static_cast<std::size_t>(k % 3), 40 + 3 * k);
    baled += test::bale_in_part(now, draws);
    compare_quick(now, draws, c);
  }
  CHECK(baled > 30);
  CHECK(c.fields == 720);
  CHECK(c.cents > 0);
  CHECK(c.differ == 0);
}

TEST_CASE("what is left of a field baled in part is baled, and what lies there hauled", "[identity]") {
  farm::Problem now = test::with_weather_so_far(cut_farm(3), 0, 45);
  const double area = now.farm.fields[0].area.value();
  const int rake = test::operation_at(now.farm.book, "rake"),
            bale = test::operation_at(now.farm.book, "bale"),
            haul = test::operation_at(now.farm.book, "haul");
  now.so_far.events = {
      {1, now.as_of - 3, farm::WorkDone{.field = 0, .operation = rake, .finishes = true}},
      {2, now.as_of - 2, farm::WorkDone{.field = 0, .operation = bale, .area_ha = 0.4 * area}},
      {3, now.as_of - 1, farm::WorkDone{.field = 0, .operation = haul, .area_ha = 0.1 * area}}};
  now.so_far.entries = 3;
  now.farm.fields[0].locked = MethodId{"bale"};
  const dispatch::Table table = dispatch::make_table(now, 1);
  Draws draws{2, stream_of("half baled")};
  const plan::Decision decision = test::random_decision(table, draws);
  REQUIRE(decision.method[0] != plan::none);
  int whole_years = 0;
  for (std::size_t year = 0; year < 3; ++year) {
    double baled = 0.0, hauled = 0.0;
    const plan::YearRun run = dispatch::run(table, decision, year);
    for (const plan::Work& w : run.work) {
      if (w.field != 0 || w.stands_by) continue;
      baled += w.operation == bale ? w.area_ha : 0.0;
      hauled += w.operation == haul ? w.area_ha : 0.0;
    }
    if (run.fields[0].fell_back) continue;
    ++whole_years;
    CHECK(baled == Approx(0.6 * area));
    CHECK(hauled == Approx(0.9 * area));
  }
  CHECK(whole_years > 0);
}
