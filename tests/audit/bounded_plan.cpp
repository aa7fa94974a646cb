#include "bounded_plan.hpp"

#include "aftercut/scenario/base_plan.hpp"
#include "random_decisions.hpp"

namespace aftercut::test {

const farm::Problem& bounded_problem() {
  static const farm::Problem problem = [] {
    farm::Problem p = open_problem(3);
    for (auto& o : p.farm.operators) o.hours_per_day = Hours{2.0};
    for (const auto& recipe : p.farm.book.recipes)
      p.farm.fields[4].not_allowed.push_back({recipe.id, "the owner"});
    return p;
  }();
  return problem;
}

const plan::PlannedYears& bounded_plan() {
  static const plan::PlannedYears planned = [] {
    auto made = scenario::make_plan(
        bounded_problem(), {.seed = 5, .threads = 1, .evaluations = 60, .bound_rounds = 25, .progress = {}});
    made.plan.version = "test";
    return made;
  }();
  return planned;
}

}  // namespace aftercut::test
