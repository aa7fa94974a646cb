#include "aftercut/planner/anneal.hpp"

#include <algorithm>
#include <cmath>

#include "catch2/catch.hpp"

using namespace aftercut;

namespace {

/// A bumpy row of heights with its least at 70; a walk of single steps from 5 has to climb over bumps.
double height(int at) { return 0.01 * (at - 70) * (at - 70) + 3.0 * std::sin(1.3 * at) * std::sin(1.3 * at); }

struct Walker {
  int here = 5, there = 5, best = 5;
  int judged = 0;
  double last_limit = 0.0;

  double walk(int moves, double heat, std::uint64_t seed) {
    return planner::anneal({.moves = moves,
                            .start_cost = height(here),
                            .heat = heat,
                            .judge = [this](Draws& draws, double limit) -> std::optional<double> {
                              ++judged;
                              last_limit = limit - height(here);
                              there = std::clamp(here + (draws.below(2) == 0 ? -1 : 1), 0, 99);
                              const double cost = height(there);
                              if (cost > limit) return std::nullopt;
                              return cost;
                            },
                            .keep = [this] { here = there; },
                            .best = [this] { best = here; }},
                           Draws{seed, stream_of("test")});
  }
};

double least_height() {
  double least = height(0);
  for (int at = 1; at < 100; ++at) least = std::min(least, height(at));
  return least;
}

}  // namespace

TEST_CASE("annealing climbs over bumps that a greedy walk stays behind", "[identity]") {
  Walker greedy, warm;
  const double cold = greedy.walk(4000, 0.0, 1), hot = warm.walk(4000, 10.0, 1);
  CHECK(cold > least_height() + 1.0);
  CHECK(hot == Approx(least_height()).margin(1e-12));
  CHECK(height(warm.best) == hot);
  CHECK(warm.judged == 4000);
}

TEST_CASE("the limit falls to where the walk stands, and the same draws give the same walk", "[identity]") {
  Walker a, b, c;
  CHECK(a.walk(500, 10.0, 7) == b.walk(500, 10.0, 7));
  CHECK(a.here == b.here);
  c.walk(500, 10.0, 8);
  CHECK(a.last_limit < 0.01);
  CHECK(a.last_limit >= 0.0);
  CHECK(c.last_limit != a.last_limit);
}
