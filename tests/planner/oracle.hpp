#pragma once
// The relaxed model that the bound stands on, written a second time as one mixed integer programme: what
// every field may do (its openings), the minutes of every machine and person on every day, one method for a
// field in all years. Its optimum lies between the bound and the cost of any plan.

#include "aftercut/planner/bound.hpp"
#include "mip.hpp"

namespace aftercut::test {

struct Relaxed {
  Mip mip;                               ///< cost in whole currency, summed over the years
  std::vector<std::vector<int>> method;  ///< [field][recipe] column, -1: not possible
};
/// [field][recipe] methods that the programme holds.
using Kept = std::vector<std::vector<char>>;
Kept every_method(const planner::BoundModel& model);
/// The same model with nothing known of its ways beforehand, so that every method is priced; and after its
/// openings were changed.
planner::BoundModel every_way(planner::BoundModel model);
/// Those that a relaxed solution below the plan can choose, by what the bound says of each under its prices:
/// programmes get three times as small, and are then no proof of that part of the bound.
Kept methods_in_reach(const planner::BoundModel& model, const planner::Bound& bound, double plan_cents);
Relaxed relaxed_model(const planner::BoundModel& model, const Kept& kept);

/// [field] the methods of a solution.
std::vector<int> methods_of(const Relaxed& relaxed, const MipEnd& end);

struct RelaxedOptimum {
  double cents = 0.0;         ///< of the best that was found; the plan's own where nothing below it was
  double proven_cents = 0.0;  ///< nothing of the relaxed model costs less
  bool closed = false;        ///< the two agree within the gap asked for
  std::size_t columns = 0, rows = 0, whole_columns = 0;
  std::vector<int> method;  ///< [field] of the best found; empty: nothing was found below the plan
};
/// `plan_cents`: what some plan costs over the same years; nothing dearer is looked for.
RelaxedOptimum relaxed_optimum(const planner::BoundModel& model, const Kept& kept, double plan_cents,
                               const MipLimits& limits);

}  // namespace aftercut::test
