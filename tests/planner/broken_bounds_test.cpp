// Bounds spoiled on purpose go through the checks that the sound one passes, and are caught by them. A check
// that lets a wrong bound through proves nothing.

#include <algorithm>
#include <functional>
#include <iterator>

#include "aftercut/core/random.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "catch2/catch.hpp"
#include "quick_cases.hpp"
#include "tiny_farms.hpp"

using namespace aftercut;
using namespace aftercut::test;
using planner::BoundModel;
using planner::Chain;
using planner::Opening;

namespace {

/// The bound of a model under the prices of the sound one, and in `change` what is done to the model first.
double bound_of(const Solved& s, const std::function<void(BoundModel&)>& change) {
  BoundModel m = s.tiny.model;
  change(m);
  return planner::evaluate(every_way(std::move(m)), s.bound.prices, 1).cents;
}

double paid_back(const Solved& s) {
  double cents = 0.0;
  for (const planner::DayPrices& year : s.bound.prices)
    for (std::size_t i = 0; i < year.size(); ++i) cents += year[i] * s.tiny.model.resources.minutes[i];
  return cents;
}

void every_chain(BoundModel& m, const std::function<void(Chain&)>& change) {
  for (auto& field : m.openings)
    for (auto& year : field)
      for (auto& recipe : year) {
        if (!recipe) continue;
        for (Chain& chain : recipe->own) change(chain);
        for (planner::FallBack& f : recipe->fall_backs) change(f.chain);
      }
}

void every_opening(BoundModel& m, const std::function<void(Opening&)>& change) {
  every_chain(m, [&](Chain& chain) {
    for (Opening& o : chain.passes) change(o);
  });
}

/// Takes the first days of a pass away, as masks do that were lived from one late history.
void later(Opening& o, std::size_t days) {
  const auto off = static_cast<std::ptrdiff_t>(std::min(days, o.days.size()));
  const auto cut = [&](auto& values) {
    if (!values.empty()) values.erase(values.begin(), values.begin() + off);
  };
  cut(o.days);
  cut(o.dry_already);
  cut(o.draft);
  cut(o.cost_cents);
  cut(o.next_passes);
  cut(o.may_end);
}

struct Spoiled {
  const char* what;
  std::function<double(const Solved&)> bound;
};

std::vector<Spoiled> spoiled_upwards() {
  const auto model = [](const std::function<void(BoundModel&)>& change) {
    return [change](const Solved& s) { return bound_of(s, change); };
  };
  return {
      {"prices are added instead of paid back",
       [](const Solved& s) { return s.bound.cents + 2.0 * paid_back(s); }},
      {"prices are not paid back", [](const Solved& s) { return s.bound.cents + paid_back(s); }},
      {"half of the minutes are paid back", model([](BoundModel& m) {
         for (double& there : m.resources.minutes) there *= 0.5;
       })},
      {"half the work rate", model([](BoundModel& m) {
         for (auto& field : m.most_ha_a_day)
           for (double& most : field) most *= 0.5;
       })},
      {"cautious masks: four days later",
       model([](BoundModel& m) { every_opening(m, [](Opening& o) { later(o, 4); }); })},
      {"a pass too many", model([](BoundModel& m) {
         every_chain(m, [](Chain& c) {
           if (!c.passes.empty()) c.passes.push_back(c.passes.back());
         });
       })},
      {"a fifth more pull", model([](BoundModel& m) {
         every_opening(m, [](Opening& o) {
           for (double& draft : o.draft) draft *= 1.2;
         });
       })},
      {"four days between passes",
       model([](BoundModel& m) { every_opening(m, [](Opening& o) { o.lag += 4; }); })},
      {"three times the drying", model([](BoundModel& m) {
         every_opening(m, [](Opening& o) {
           o.drying_mm *= 3.0;
           std::fill(o.dry_already.begin(), o.dry_already.end(), char{0});
         });
       })},
      {"incomes with the wrong sign", model([](BoundModel& m) {
         every_opening(m, [](Opening& o) {
           for (double& cents : o.cost_cents) cents = -cents;
         });
       })},
      {"losses of lateness ten days too early", model([](BoundModel& m) {
         for (planner::Outcome& o : m.outcomes)
           for (std::size_t d = 0; d + 10 < o.cents.size(); ++d) o.cents[d] = o.cents[d + 10];
       })},
      {"the cheapest method forgotten", model([](BoundModel& m) {
         for (auto& field : m.openings)
           for (auto& year : field) {
             const auto first =
                 std::find_if(year.rbegin(), year.rend(), [](const auto& o) { return o.has_value(); });
             const auto count =
                 std::count_if(year.begin(), year.end(), [](const auto& o) { return o.has_value(); });
             if (count > 1) first->reset();
           }
       })},
  };
}

/// Too low: still below every plan, but of no use; caught by how far below the optimum it lies.
std::vector<Spoiled> spoiled_downwards() {
  return {
      {"wages left out",
       [](const Solved& s) {
         farm::Problem p = *s.tiny.problem;
         for (auto& o : p.farm.operators) o.paid = false;
         dispatch::Table t = dispatch::make_table(p, 1);
         BoundModel m = s.tiny.model;
         m.table = &t;
         return planner::evaluate(every_way(std::move(m)), s.bound.prices, 1).cents;
       }},
      {"every pass left out for nothing",
       [](const Solved& s) {
         return bound_of(s, [](BoundModel& m) { every_opening(m, [](Opening& o) { o.free_from = 0; }); });
       }},
      {"prices paid back twice", [](const Solved& s) { return s.bound.cents - paid_back(s); }},
  };
}

std::size_t caught(const Spoiled& spoiled) {
  std::size_t count = 0;
  for (const Solved& s : quick_cases()) {
    Held held = s.held;
    held.bound = spoiled.bound(s);
    if (!faults_of(held).empty()) ++count;
  }
  return count;
}

/// Days of work of random decisions that the openings do not hold.
int days_outside(const TinyCase& c, const BoundModel& m, std::uint64_t decisions) {
  int outside = 0;
  for (std::uint64_t k = 0; k < decisions; ++k) {
    Draws draws{31, stream_of("outside"), k};
    plan::Decision d = c.decision;
    const auto possible = dispatch::possible_recipes(*c.table);
    for (std::size_t f = 0; f < d.method.size(); ++f)
      d.method[f] = possible[f][draws.below(static_cast<std::uint32_t>(possible[f].size()))];
    for (const plan::Work& w : dispatch::run(*c.table, d, 0).work) {
      const auto f = static_cast<std::size_t>(w.field);
      const auto& o = *m.openings[f][0][static_cast<std::size_t>(d.method[f])];
      bool wanted = false, held = false;  // a step that no chain asks for costs the bound nothing
      const auto look = [&](const Chain& chain) {
        for (const Opening& pass : chain.passes) {
          if (pass.operation != w.operation) continue;
          wanted = true;
          held = held || std::binary_search(pass.days.begin(), pass.days.end(), w.day);
        }
      };
      for (const Chain& chain : o.own) look(chain);
      for (const planner::FallBack& b : o.fall_backs) look(b.chain);
      if (wanted && !held) ++outside;
    }
  }
  return outside;
}

}  // namespace

TEST_CASE("a bound that is too high is caught by the optimum, whatever was spoiled", "[cross]") {
  CHECK(caught({"sound", [](const Solved& s) { return s.bound.cents; }}) == 0);
  for (const Spoiled& spoiled : spoiled_upwards()) {
    CAPTURE(spoiled.what);
    CHECK(caught(spoiled) >= 1);
  }
}

TEST_CASE("a bound that is too low to be of use is caught by its distance", "[cross]") {
  for (const Spoiled& spoiled : spoiled_downwards()) {
    CAPTURE(spoiled.what);
    CHECK(caught(spoiled) >= 1);
  }
}

TEST_CASE("openings of tiny farms hold the work of random decisions", "[cross]") {
  int outside = 0;
  for (std::uint64_t k = 0; k < 60; ++k) {
    const TinyCase c = tiny_case(tiny_problem(k), 0);
    outside += days_outside(c, c.model, 10);
  }
  CHECK(outside == 0);
}

TEST_CASE("cautious openings of tiny farms do not hold the work of random decisions", "[cross]") {
  for (const Solved& s : quick_cases()) {
    CAPTURE(s.k);
    BoundModel cautious = s.tiny.model;
    every_opening(cautious, [](Opening& o) { later(o, 1); });
    CHECK(days_outside(s.tiny, cautious, 10) > 0);
  }
}

TEST_CASE("a year dropped from the sum is caught: years priced alone add up to all of them", "[cross]") {
  const TinyCase c = tiny_case(tiny_problem(3, {.least_fields = 4, .most_fields = 4, .years = 3}), 2000);
  std::vector<planner::DayPrices> prices;
  for (std::size_t y = 0; y < 3; ++y) {
    Draws draws{37, stream_of("prices"), y};
    auto& year = prices.emplace_back(c.model.resources.minutes.size(), 0.0);
    for (double& price : year)
      if (draws.below(4) == 0) price = 20.0 * draws.uniform();
  }
  const planner::Evaluated all = planner::evaluate(every_way(c.model), prices, 1);
  std::vector<planner::Evaluated> alone;
  for (std::size_t y = 0; y < 3; ++y)
    alone.push_back(
        planner::evaluate(every_way(planner::make_bound_model(*c.table, {y}, 1)), {prices[y]}, 1));
  const auto sum = [&](std::size_t years, std::size_t f, std::size_t r) {
    double cents = 0.0;
    for (std::size_t y = 0; y < years; ++y) cents += alone[y].by_method[f][r];
    return cents;
  };
  std::size_t methods = 0;
  for (std::size_t f = 0; f < all.by_method.size(); ++f)
    for (std::size_t r = 0; r < all.by_method[f].size(); ++r) {
      if (all.by_method[f][r] > 1e15) continue;
      ++methods;
      CHECK(all.by_method[f][r] == Approx(sum(3, f, r)).epsilon(1e-12));
      CHECK(all.by_method[f][r] != Approx(sum(2, f, r)).epsilon(1e-6));
    }
  CHECK(methods >= 12);
  // Each year may choose its own methods when it is alone, so all together are no cheaper.
  CHECK(all.cents >= alone[0].cents + alone[1].cents + alone[2].cents - 1e-6);
}
