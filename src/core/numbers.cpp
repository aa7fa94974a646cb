#include "aftercut/core/numbers.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "aftercut/core/require.hpp"

namespace aftercut {

double interpolate(std::span<const Node> nodes, double x) {
  require(!nodes.empty(), "interpolation needs a node");
  if (x <= nodes.front().x) return nodes.front().y;
  for (std::size_t i = 1; i < nodes.size(); ++i) {
    if (x <= nodes[i].x) {
      const double share = (x - nodes[i - 1].x) / (nodes[i].x - nodes[i - 1].x);
      return nodes[i - 1].y + share * (nodes[i].y - nodes[i - 1].y);
    }
  }
  return nodes.back().y;
}

double quantile(std::vector<double> values, double p) {
  require(!values.empty() && p >= 0.0 && p <= 1.0, "a quantile needs values and a share from 0 to 1");
  std::sort(values.begin(), values.end());
  const double h = static_cast<double>(values.size() - 1) * p;
  const auto low = static_cast<std::size_t>(std::floor(h));
  const std::size_t high = std::min(low + 1, values.size() - 1);
  return values[low] + (h - std::floor(h)) * (values[high] - values[low]);
}

double mean(std::span<const double> values) {
  require(!values.empty(), "a mean needs values");
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double deviation(std::span<const double> values) {
  if (values.size() < 2) return 0.0;
  const double middle = mean(values);
  double squares = 0.0;
  for (const double x : values) squares += (x - middle) * (x - middle);
  return std::sqrt(squares / static_cast<double>(values.size() - 1));
}

double standard_error(std::span<const double> values) {
  return values.size() < 2 ? 0.0 : deviation(values) / std::sqrt(static_cast<double>(values.size()));
}

std::vector<std::size_t> first_numbers(std::size_t n) {
  std::vector<std::size_t> numbers(n);
  std::iota(numbers.begin(), numbers.end(), std::size_t{0});
  return numbers;
}

std::int64_t to_cents(double money) { return std::llround(money * 100.0); }

std::int64_t ceil_minutes(double hours) {
  return static_cast<std::int64_t>(std::ceil((hours - 1e-9) * 60.0));
}

}  // namespace aftercut
