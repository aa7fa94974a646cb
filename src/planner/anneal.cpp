#include "aftercut/planner/anneal.hpp"

#include <cmath>

namespace aftercut::planner {

double anneal(const Annealing& walk, Draws draws) {
  double now = walk.start_cost, best = walk.start_cost;
  for (int k = 0; k < walk.moves; ++k) {
    const double to_go = 1.0 - static_cast<double>(k) / walk.moves;
    if (walk.stands) now = walk.stands();
    const double limit = now - walk.heat * to_go * to_go * std::log(draws.uniform());
    const std::optional<double> cost = walk.judge(draws, limit);
    if (walk.progress) walk.progress(1.0 - to_go);
    if (!cost || *cost > limit) continue;
    walk.keep();
    now = *cost;
    if (now >= best) continue;
    best = now;
    walk.best();
  }
  return best;
}

}  // namespace aftercut::planner
