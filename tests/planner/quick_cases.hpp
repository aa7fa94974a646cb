#pragma once
// A dozen tiny problems that CBC closes within a second or so with every method left in, solved once for all
// tests of the program.

#include "held.hpp"

namespace aftercut::test {

struct Solved {
  std::uint64_t k = 0;
  TinyCase tiny;
  planner::Bound bound;
  Held held;
};
const std::vector<Solved>& quick_cases();

}  // namespace aftercut::test
