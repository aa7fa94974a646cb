#pragma once
// The small farm with a baler so slow that the fall-back takes over while field 1 is half baled. Header only.

#include "small_farm.hpp"

namespace aftercut::test {

inline constexpr int half_baled_field = 0;

inline farm::Problem half_baled_problem(int years = 4) {
  farm::Problem p = small_problem(years);
  const char* methods[] = {"bale", "leave", "leave", "leave", "leave"};
  for (std::size_t f = 0; f < p.farm.fields.size(); ++f) p.farm.fields[f].locked = MethodId{methods[f]};
  for (auto& i : p.farm.implements)
    if (i.kind == "baler") i.throughput = TonnePerHour{1.5};
  for (auto& recipe : p.farm.book.recipes)
    if (recipe.id.value == "bale") recipe.fall_back->start_by = {9, 25};
  return p;
}

/// The same with the fall-back in December: the longest time since raking runs out while field 1 is half
/// baled.
inline farm::Problem raked_anew_problem(int years = 4) {
  farm::Problem p = half_baled_problem(years);
  for (auto& recipe : p.farm.book.recipes)
    if (recipe.id.value == "bale") {
      recipe.fall_back->start_by = {12, 1};
      recipe.steps[1].most_lag_days = 4;
    }
  return p;
}

}  // namespace aftercut::test
