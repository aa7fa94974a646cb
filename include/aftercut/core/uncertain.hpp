#pragma once
// A figure with the range that its sources give, and how ranges are combined.

namespace aftercut {

/// A middle figure and its low and high ends, low <= mid <= high.
struct Uncertain {
  double mid = 0.0, low = 0.0, high = 0.0;
  friend bool operator==(const Uncertain&, const Uncertain&) = default;
};

/// The same number at all three places.
constexpr Uncertain exactly(double x) { return {x, x, x}; }
constexpr Uncertain operator*(double k, const Uncertain& u) { return {k * u.mid, k * u.low, k * u.high}; }

/// Terms whose errors have nothing to do with each other: the middles add up, the distances to the low ends
/// and those to the high ends add up as the root of the sum of their squares.
Uncertain sum_of_independent(const Uncertain& a, const Uncertain& b);

/// Factors above zero whose errors have nothing to do with each other: the same for their logarithms, so that
/// ranges as lopsided as 0.80 - 1.19 - 1.76 stay so and none falls below zero.
Uncertain product_of_independent(const Uncertain& a, const Uncertain& b);

}  // namespace aftercut
