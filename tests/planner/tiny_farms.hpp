#pragma once
// Small planning problems cut from the demo farm: a few of its fields with areas, soils and harvests drawn
// anew, few machines so that sharing them matters, one or three of its own wet winters, and only the weeks of
// autumn or of spring, so that exact methods can be held against the plan and the bound.

#include "aftercut/farm/problem.hpp"

namespace aftercut::test {

struct TinyShape {
  std::size_t least_fields = 4, most_fields = 8;
  std::size_t least_methods = 4, most_methods = 6;
  std::size_t years = 1;
  /// Steps keep their give-up dates, hired outfits their call-out, finishing passes their wait on dry ground,
  /// and the farm its winter water: what the bound takes most hopefully.
  bool as_the_demo = false;
  double wanted_chance = 0.0;  ///< of each field, before money; 0: money alone counts
};

/// The `k`th problem of this shape. Everybody is paid. Even `k`: spring work, odd: autumn work.
farm::Problem tiny_problem(std::uint64_t k, const TinyShape& shape = {});

/// What was drawn, for messages.
std::string words_of(const farm::Problem& problem);

}  // namespace aftercut::test
