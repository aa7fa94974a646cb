#pragma once
// The best plan of a problem so small that every choice of methods and of both lists can be dispatched.

#include <cstdint>
#include <string>

#include "aftercut/dispatch/table.hpp"
#include "aftercut/plan/decision.hpp"
#include "aftercut/planner/wishes.hpp"
#include "tiny_farms.hpp"

namespace aftercut::test {

/// Cents, sums over the years of the table.
struct Enumerated {
  std::int64_t plan = 0;                ///< one choice of methods and lists for all years
  std::int64_t own_lists = 0;           ///< one choice of methods, lists by year with the year known
  std::int64_t years_on_their_own = 0;  ///< everything by year
  std::size_t decisions = 0;
  plan::Decision decision;  ///< the best plan's
};
Enumerated every_plan(const dispatch::Table& table);

/// What the best plan is short of the farm's wishes, and its cost, summed over the years.
planner::Merit best_merit(const dispatch::Table& table);

/// Searched plans against it.
struct Wished {
  int count = 0, any_short = 0;  ///< problems; those in which even the best plan is short
  int as_little_short = 0;       ///< searched plans that are no further from their wishes than the best
  double most_above = 0.0;       ///< of those, in cost, as a share of the best's
  int wrong = 0;                 ///< better than the best of all
};
Wished searched_with_wishes(const TinyShape& shape, std::uint64_t from, std::uint64_t to, int evaluations);

/// How far searched plans lie above the best of all, as shares of it.
struct Above {
  double mean = 0.0, most = 0.0;
  int same = 0, count = 0;
  int wrong = 0;  ///< the search below the best of all, or hindsight dearer than none
  [[nodiscard]] std::string words() const;
};
Above searched_above(const TinyShape& shape, std::uint64_t from, std::uint64_t to, int evaluations);

}  // namespace aftercut::test
