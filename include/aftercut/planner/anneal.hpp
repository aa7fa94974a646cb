#pragma once
// Simulated annealing, whatever it walks over: a neighbour is drawn, judged against a limit that was drawn
// before, and kept when it is below. The limit lets the judge stop early. Heat falls from a share of the
// start's cost to nothing. Source: Kirkpatrick1983 (recalled).

#include <functional>
#include <optional>

#include "aftercut/core/random.hpp"

namespace aftercut::planner {

struct Annealing {
  int moves = 0;
  double start_cost = 0.0;
  double heat = 0.0;  ///< at the start, in units of cost
  /// Draws and judges a neighbour of where the walk stands: its cost, or nothing when it is above the limit.
  std::function<std::optional<double>(Draws& draws, double limit)> judge;
  std::function<void()> keep;  ///< the walk goes on from the neighbour judged last
  std::function<void()> best;  ///< where it stands now is the best so far
  std::function<void(double)> progress = {};
  /// What the place where the walk stands costs before each move, for costs that change as it goes on; empty:
  /// what it cost when it was judged.
  std::function<double()> stands = {};
};

/// The least cost met. The same draws give the same walk.
double anneal(const Annealing& walk, Draws draws);

}  // namespace aftercut::planner
