#pragma once
// Dates to keep and money by the month.

#include <cstdint>
#include <string>
#include <vector>

namespace aftercut::plan {

/// Something to be signed, sampled, ordered or done by a day.
struct DateToKeep {
  int day = 0;  ///< season day
  std::string what, why;
  std::string source;       ///< where the farm's data say so; empty: worked out by the plan
  std::vector<int> fields;  ///< that it is for
  bool worked_out = false;  ///< from weather years: the Monday of a week
  friend bool operator==(const DateToKeep&, const DateToKeep&) = default;
};

}  // namespace aftercut::plan
