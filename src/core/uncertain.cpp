#include "aftercut/core/uncertain.hpp"

#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut {

Uncertain sum_of_independent(const Uncertain& a, const Uncertain& b) {
  const double mid = a.mid + b.mid;
  return {mid, mid - std::hypot(a.mid - a.low, b.mid - b.low),
          mid + std::hypot(a.high - a.mid, b.high - b.mid)};
}

Uncertain product_of_independent(const Uncertain& a, const Uncertain& b) {
  require(a.low > 0.0 && b.low > 0.0, "factors of a product are above zero");
  const double mid = a.mid * b.mid;
  return {mid, mid * std::exp(-std::hypot(std::log(a.mid / a.low), std::log(b.mid / b.low))),
          mid * std::exp(std::hypot(std::log(a.high / a.mid), std::log(b.high / b.mid)))};
}

}  // namespace aftercut
