#pragma once
// A farm with every choice open, and decisions drawn at random among those that the table lets. Header only.

#include "aftercut/core/shuffle.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "small_farm.hpp"

namespace aftercut::test {

/// The small farm with no method locked.
inline farm::Problem open_problem(int years) {
  farm::Problem p = small_problem(years);
  for (auto& f : p.farm.fields) f.locked.reset();
  return p;
}

inline plan::Decision random_decision(const dispatch::Table& t, Draws& draws) {
  plan::Decision d;
  for (const auto& possible : dispatch::possible_recipes(t))
    d.method.push_back(possible.empty() ? plan::none
                                        : possible[draws.below(static_cast<std::uint32_t>(possible.size()))]);
  d.autumn_order = shuffled_indices(d.method.size(), draws);
  d.spring_order = shuffled_indices(d.method.size(), draws);
  return d;
}

}  // namespace aftercut::test
