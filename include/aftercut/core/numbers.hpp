#pragma once
// Small arithmetic that several rooms need: interpolation between nodes, quantiles, rounding to whole units.

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace aftercut {

struct Node {
  double x = 0.0;
  double y = 0.0;
};

/// Linear between nodes (x rising), constant beyond the ends. At least one node.
double interpolate(std::span<const Node> nodes, double x);

/// The p-quantile (0 to 1), linear between order statistics: h = (n-1)p. At least one value.
/// Source: HyndmanFan1996 definition 7 (recalled).
double quantile(std::vector<double> values, double p);

double mean(std::span<const double> values);  ///< at least one value

/// Standard deviation of the population that the values are drawn from (n - 1); 0 for fewer than two.
double deviation(std::span<const double> values);
double standard_error(std::span<const double> values);  ///< of their mean; 0 for fewer than two

std::vector<std::size_t> first_numbers(std::size_t n);  ///< 0 to n - 1

std::int64_t to_cents(double money);      ///< half away from zero
std::int64_t ceil_minutes(double hours);  ///< up to the next whole minute; 1e-9 h of slack

}  // namespace aftercut
