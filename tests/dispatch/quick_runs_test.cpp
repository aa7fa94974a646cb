#include "aftercut/dispatch/quick_runs.hpp"

#include "aftercut/dispatch/dispatch.hpp"
#include "catch2/catch.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

constexpr int weather_years = 4;

/// The small farm without canal: no water is shared.
farm::Problem dry_farm() {
  farm::Problem p = test::open_problem(weather_years);
  p.farm.supply.reset();
  return p;
}

struct Difference {
  int fields = 0, other_cost = 0, other_day = 0, other_in_time = 0;
  double run_cents = 0.0, off_cents = 0.0;
};

/// Quick runs of random decisions against the dispatch's own.
Difference against_runs(const farm::Problem& p, const dispatch::Likeness& like, int decisions) {
  const dispatch::Table t = dispatch::make_table(p, 1);
  dispatch::QuickRuns quick{t, like};
  Draws draws{11, stream_of("quick")};
  Difference d;
  for (int k = 0; k < decisions; ++k) {
    const plan::Decision decision = test::random_decision(t, draws);
    for (std::size_t y = 0; y < weather_years; ++y) {
      const plan::YearRun run = dispatch::run(t, decision, y);
      const dispatch::QuickRecord fast = quick.run(decision, y);
      for (std::size_t f = 0; f < run.fields.size(); ++f) {
        const std::int64_t cents = run.fields[f].cost.out_of_pocket();
        ++d.fields;
        d.other_cost += fast.fields[f].cents == cents ? 0 : 1;
        d.other_day += fast.fields[f].ready_day == run.fields[f].ready_day ? 0 : 1;
        const bool in_time = (fast.in_time[f / 64] >> (f % 64) & 1) != 0;
        d.other_in_time += in_time == (run.fields[f].status == plan::Status::ready) ? 0 : 1;
        d.run_cents += static_cast<double>(std::abs(cents));
        d.off_cents += static_cast<double>(std::abs(cents - fast.fields[f].cents));
      }
    }
  }
  return d;
}

/// Moves of one field in one list, or another method for it.
struct Moved {
  plan::Decision decision;
  dispatch::QuickChange change;
};
Moved moved(const dispatch::Table& t, plan::Decision d, std::size_t words, Draws& draws) {
  const auto n = static_cast<std::uint32_t>(d.method.size());
  dispatch::QuickChange change;
  if (draws.below(3) == 0) {
    const auto f = draws.below(n);
    change.field = static_cast<int>(f);
    d.method[f] = test::random_decision(t, draws).method[f];
    return {d, change};
  }
  change.spring = draws.below(2) == 1;
  change.moved.assign(words, 0);
  change.across = change.moved;
  auto& list = change.spring ? d.spring_order : d.autumn_order;
  const auto from = draws.below(n), to = draws.below(n);
  const int field = list[from];
  change.moved[0] |= std::uint64_t{1} << static_cast<unsigned>(field);
  for (auto k = std::min(from, to); k <= std::max(from, to); ++k)
    if (k != from) change.across[0] |= std::uint64_t{1} << static_cast<unsigned>(list[k]);
  list.erase(list.begin() + from);
  list.insert(list.begin() + to, field);
  return {d, change};
}

}  // namespace

TEST_CASE("with no water shared a quick run costs what the run does, to the cent", "[identity]") {
  const Difference d = against_runs(dry_farm(), {}, 60);
  CHECK(d.fields >= 1000);
  CHECK(d.other_cost == 0);
  CHECK(d.other_day == 0);
  CHECK(d.other_in_time == 0);
}

TEST_CASE("with canal water a quick run stays within half a percent of the run", "[cross]") {
  const Difference d = against_runs(test::open_problem(weather_years), {}, 60);
  CHECK(d.other_day <= d.fields / 50);
  CHECK(d.off_cents <= 0.005 * d.run_cents);
}

TEST_CASE("pasts that pass for the same cost little truth", "[cross]") {
  const Difference d =
      against_runs(dry_farm(), {.before_last = 3, .older = 7, .before_spring = 28, .water_mm = 10.0}, 60);
  CHECK(d.other_day <= d.fields / 20);
  CHECK(d.other_in_time <= d.fields / 100);
  CHECK(d.off_cents <= 0.01 * d.run_cents);
}

TEST_CASE("a year run again from the first changed day ends as one run from its start", "[identity]") {
  const farm::Problem p = test::open_problem(weather_years);
  const dispatch::Table t = dispatch::make_table(p, 1);
  dispatch::QuickRuns quick{t, {}}, whole{t, {}};
  Draws draws{12, stream_of("again")};
  plan::Decision decision = test::random_decision(t, draws);
  std::vector<dispatch::QuickRecord> records;
  for (std::size_t y = 0; y < weather_years; ++y) records.push_back(quick.run(decision, y));
  int later = 0, unchanged = 0;
  for (int k = 0; k < 300; ++k) {
    const Moved m = moved(t, decision, quick.words(), draws);
    for (std::size_t y = 0; y < weather_years; ++y) {
      const dispatch::QuickRecord full = whole.run(m.decision, y);
      const int day = quick.first_changed_day(records[y], m.change, y);
      if (day >= p.farm.season.days) {
        REQUIRE(full.cents == records[y].cents);
        REQUIRE(full.in_time == records[y].in_time);
        ++unchanged;
        continue;
      }
      dispatch::QuickRecord again = quick.run_from(records[y], m.decision, y, day);
      later += again.from_day > full.from_day + 30 ? 1 : 0;
      REQUIRE(again.cents == full.cents);
      REQUIRE(quick.cents_from(records[y], m.decision, y, day) == full.cents);
      REQUIRE(quick.in_time() == full.in_time);
      REQUIRE(whole.cents(m.decision, y) == full.cents);
      REQUIRE(whole.in_time() == full.in_time);
      REQUIRE(again.in_time == full.in_time);
      records[y] = quick.joined(std::move(records[y]), std::move(again));
      REQUIRE(records[y].mornings.size() >= full.mornings.size() - 1);
    }
    decision = m.decision;
  }
  CHECK(later > 50);
  CHECK(unchanged > 50);
}
