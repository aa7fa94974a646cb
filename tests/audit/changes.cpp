#include "changes.hpp"

#include <stdexcept>

#include "catch2/catch.hpp"

namespace aftercut::test {

plan::MethodOutcome& chosen(plan::PlannedYears& p, std::size_t field) {
  return p.plan.fields[field].methods[static_cast<std::size_t>(p.plan.decision.method[field])];
}

int recipe_named(const std::string& id) {
  const auto& recipes = locked_problem().farm.book.recipes;
  for (std::size_t r = 0; r < recipes.size(); ++r)
    if (recipes[r].id.value == id) return static_cast<int>(r);
  throw std::runtime_error("no recipe " + id);
}

void check_changes(const std::vector<PlanChange>& changes, const farm::Problem& problem) {
  for (const PlanChange& change : changes) {
    plan::PlannedYears planned = sound_plan();
    change.make(planned);
    const auto rules = broken_rules(problem, planned);
    std::string found;
    for (const auto& r : rules) found += r + "; ";
    INFO("expected " << change.rule << ", found " << found);
    CHECK(rules.contains(change.rule));
  }
}

}  // namespace aftercut::test
