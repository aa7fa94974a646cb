#pragma once
// Inside room planner: the steps of a recipe one after the other, with a chain of its own for each way that
// the later steps can tell.

#include "histories.hpp"

namespace aftercut::planner {

/// A chain in the making: passes so far and the ways in which the field may have come behind them.
struct Branch {
  std::vector<Opening> passes;
  std::vector<History> histories;
  const method::Operation* before = nullptr;
  const method::Step* step_behind = nullptr;  ///< the one right behind the step of the last pass
  double income_cents = 0.0;
};

struct Lived {
  std::vector<Chain> chains;
  std::size_t key_passes = 0;  ///< the same in all chains: nothing before the key step parts ways
};

/// The steps of a recipe behind a branch, from a day.
Lived live(const dispatch::Table& table, std::size_t field, std::size_t year, const method::Recipe& recipe,
           Branch from, int begins, const WhereFrom& where = {});

}  // namespace aftercut::planner
