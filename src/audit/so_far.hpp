#pragma once
// Where a field that has been worked on this season stands in a recipe, and what bars a recipe there: own
// reading of docs/rules-of-work.md, "The season so far".

#include <string>
#include <vector>

#include "steps.hpp"

namespace aftercut::audit {

/// The field's state on the plan's first morning; null where nothing has been done or seen yet.
const journal::FieldState* state_of(const Facts& facts, int field);

struct TakenUp {
  Standing standing;
  bool spring_begun = false;    ///< spring tillage is done or under way
  bool drops_the_pass = false;  ///< the pass under way is not the recipe's: it ends as it is
};
TakenUp taken_up(const Facts& facts, int field, int recipe);
/// The field as the season left it, on the plan's first morning.
season::FieldYear life_so_far(const Facts& facts, int field, season::FieldYear life, bool drops_the_pass);

std::vector<std::string> barred_by_work(const Facts& facts, int field, int recipe);
/// Steps of the recipe from the one that the field has come to.
std::vector<method::Step> steps_ahead(const Facts& facts, int field, int recipe);

/// No machine on a field that the owner has called too wet.
Findings check_owner(const Facts& facts, const Place& place, const method::Operation& op);

}  // namespace aftercut::audit
