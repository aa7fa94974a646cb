#pragma once
// The small farm with its baler under a contract. Header only.

#include "aftercut/machinery/outfit_rakes.hpp"
#include "small_farm.hpp"

namespace aftercut::test {

inline constexpr std::size_t baler_of_small_farm = 1;

/// Four fields to bale (1, 2, 3, 5) and one to chop (4); nothing of a contract but windows and prices.
inline farm::Problem baling_problem(int years = 6) {
  farm::Problem p = small_problem(years);
  for (auto& f : p.farm.fields) f.locked = MethodId{"bale"};
  p.farm.fields[3].locked = MethodId{"chop_disk"};
  return p;
}

inline machinery::Hire& terms_of(farm::Problem& p) { return *p.farm.implements[baler_of_small_farm].hire; }

/// The outfit rakes too; call after the other terms are set.
inline void let_outfit_rake(farm::Problem& p) {
  terms_of(p).rakes = true;
  p.farm.implements = machinery::with_outfit_rakes(std::move(p.farm.implements));
}

}  // namespace aftercut::test
