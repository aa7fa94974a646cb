#pragma once
// Figures of all weather years beside one another: mean of all of them, quantiles of those that are shown.

#include <vector>

#include "aftercut/core/uncertain.hpp"

namespace aftercut::audit {

/// Linear between order statistics, at (n - 1) p. At least one value.
double between(std::vector<double> values, double p);

struct Column {
  double sum = 0.0;
  std::vector<double> all, shown;

  void add(double x, bool is_shown);
  [[nodiscard]] double mean() const;
  [[nodiscard]] double at(double p) const;  ///< of the shown years, else of all; 0 without any
};

/// A figure with the range of its sources: the ends are means too.
struct RangeColumn {
  Column mid;
  double low_sum = 0.0, high_sum = 0.0;

  void add(const Uncertain& u, bool is_shown);
  [[nodiscard]] double low() const;
  [[nodiscard]] double high() const;
};

}  // namespace aftercut::audit
