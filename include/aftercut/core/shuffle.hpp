#pragma once
// Orders drawn at random.

#include <cstddef>
#include <numeric>
#include <utility>
#include <vector>

#include "aftercut/core/random.hpp"

namespace aftercut {

/// 0 to n - 1, every order as likely as any other.
inline std::vector<int> shuffled_indices(std::size_t n, Draws& draws) {
  std::vector<int> order(n);
  std::iota(order.begin(), order.end(), 0);
  for (std::size_t i = n; i > 1; --i)
    std::swap(order[i - 1], order[draws.below(static_cast<std::uint32_t>(i))]);
  return order;
}

}  // namespace aftercut
