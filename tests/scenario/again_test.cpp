// Plans made again in the middle of a season: what moves is worth it, what is not stays.

#include <numeric>

#include "aftercut/audit/audit.hpp"
#include "aftercut/planner/search.hpp"
#include "aftercut/scenario/base_plan.hpp"
#include "aftercut/scenario/stay.hpp"
#include "catch2/catch.hpp"
#include "gone_on.hpp"
#include "random_decisions.hpp"

using namespace aftercut;

namespace {

farm::Problem cut_farm() {
  farm::Problem p = test::open_problem(6);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  return p;
}

std::int64_t mean_cents(const dispatch::Table& t, const plan::Decision& d,
                        const std::vector<std::size_t>& years) {
  return planner::costs_of(t, {d}, years, 1).front() / static_cast<std::int64_t>(years.size());
}

}  // namespace

TEST_CASE("every change that is made gains what is asked, every other would not", "[identity]") {
  farm::Problem p = cut_farm();
  for (const double asked : {0.0, 15.0, 60.0, 1e5}) {
    p.farm.target.change_gain_per_ha = Money{asked};
    const dispatch::Table t = dispatch::make_table(p, 1);
    Draws draws{4, stream_of("stay")};
    const std::vector<std::size_t> years{0, 2, 4};
    for (int k = 0; k < 4; ++k) {
      const plan::Decision stood = test::random_decision(t, draws);
      const plan::Decision found =
          planner::search(
              {.table = &t, .years = years, .seed = 1, .threads = 1, .evaluations = 60, .progress = {}})
              .decision;
      const auto s = scenario::stay({.table = &t, .stood = &stood, .found = &found, .years = years});
      for (const plan::Move& m : s.moves) {
        CHECK(s.decision.method[static_cast<std::size_t>(m.field)] == (m.made ? m.to : m.from));
        plan::Decision back = s.decision;
        if (!m.made) continue;
        back.method[static_cast<std::size_t>(m.field)] = m.from;
        const std::int64_t gain = mean_cents(t, back, years) - mean_cents(t, s.decision, years);
        CHECK(std::abs(gain - m.gain_cents) <= 1);
        CHECK(static_cast<double>(gain) >=
              100.0 * asked * p.farm.fields[static_cast<std::size_t>(m.field)].area.value() - 1.0);
      }
      if (asked >= 1e5) CHECK(s.decision == stood);
    }
  }
}

TEST_CASE("a plan made again from where the season stands is clean, and tells the one that stood",
          "[cross]") {
  const farm::Problem p = cut_farm();
  const auto first = scenario::make_plan(p, {.seed = 2, .threads = 1, .evaluations = 40, .progress = {}});
  CHECK_FALSE(first.plan.again);
  const farm::Problem now = test::gone_on(p, first.runs[3], 3, 70);
  const auto second = scenario::make_plan(
      now, {.seed = 2, .threads = 1, .evaluations = 40, .progress = {}, .stands = first.plan.decision});
  REQUIRE(second.plan.again);
  const plan::Again& again = *second.plan.again;
  CHECK(again.stood_chance.size() == p.farm.fields.size());
  std::int64_t gained = 0;
  for (const plan::Move& m : again.moves)
    if (m.made) gained += m.gain_cents;
  INFO("stood " << again.stood_cents << ", now " << second.plan.cost_cents << ", gained " << gained);
  CHECK(audit::check(now, second).ok());
  const auto third = scenario::make_plan(
      now, {.seed = 2, .threads = 1, .evaluations = 40, .progress = {}, .stands = second.plan.decision});
  CHECK(third.plan.decision == second.plan.decision);  // nothing has happened since
}

TEST_CASE("a method that the season has made impossible is told with what takes its place", "[identity]") {
  const farm::Problem p = cut_farm();
  const auto first = scenario::make_plan(p, {.seed = 2, .threads = 1, .evaluations = 10, .progress = {}});
  farm::Problem now = test::with_weather_so_far(p, 0, 60);
  int chop = 0;
  while (p.farm.book.operations[static_cast<std::size_t>(chop)].id.value != "chop") ++chop;
  now.so_far.events.push_back(
      {1, now.as_of - 2, farm::WorkDone{.field = 1, .operation = chop, .finishes = true}});
  plan::Decision stands = first.plan.decision;
  for (std::size_t r = 0; r < p.farm.book.recipes.size(); ++r)
    if (p.farm.book.recipes[r].id.value == "bale_disk") stands.method[1] = static_cast<int>(r);
  const auto second = scenario::make_plan(
      now, {.seed = 2, .threads = 1, .evaluations = 10, .progress = {}, .stands = stands});
  REQUIRE(second.plan.again);
  REQUIRE(second.plan.again->barred.size() == 1);
  CHECK(second.plan.again->barred[0].field == 1);
  CHECK(p.farm.book.recipes[static_cast<std::size_t>(second.plan.again->barred[0].to)].id.value ==
        "chop_disk");
  const auto& reasons = second.plan.fields[1].methods[static_cast<std::size_t>(stands.method[1])].why_not;
  REQUIRE_FALSE(reasons.empty());
  CHECK(reasons.front().find("worked already: chop") != std::string::npos);
}
