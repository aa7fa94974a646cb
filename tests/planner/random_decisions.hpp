#pragma once
// Decisions drawn at random among those that the table lets. Header only.

#include <numeric>

#include "aftercut/core/random.hpp"
#include "aftercut/dispatch/dispatch.hpp"

namespace aftercut::test {

inline std::vector<int> shuffled(std::size_t n, Draws& draws) {
  std::vector<int> order(n);
  std::iota(order.begin(), order.end(), 0);
  for (std::size_t i = n; i > 1; --i)
    std::swap(order[i - 1], order[draws.below(static_cast<std::uint32_t>(i))]);
  return order;
}

inline plan::Decision random_decision(const dispatch::Table& t, Draws& draws) {
  plan::Decision d;
  for (const auto& reasons : t.why_not) {
    std::vector<int> possible;
    for (std::size_t r = 0; r < reasons.size(); ++r)
      if (reasons[r].empty()) possible.push_back(static_cast<int>(r));
    d.method.push_back(possible.empty() ? plan::none
                                        : possible[draws.below(static_cast<std::uint32_t>(possible.size()))]);
  }
  d.autumn_order = shuffled(d.method.size(), draws);
  d.spring_order = shuffled(d.method.size(), draws);
  return d;
}

}  // namespace aftercut::test
