#pragma once
// The lower bound with all that proves it: what bound.json holds, as values. Money in cents, unrounded where
// double (docs/bound.md).

#include <cstdint>
#include <vector>

#include "aftercut/plan/decision.hpp"

namespace aftercut::plan {

enum class Resource { tractor, implement, person };

/// The multiplier of one machine or person on one day: what a minute is charged, more than 0.
struct MinutePrice {
  Resource resource = Resource::tractor;
  int index = 0;  ///< into the farm's tractors, implements or operators
  int day = 0;    ///< season day
  double cents = 0.0;
  friend bool operator==(const MinutePrice&, const MinutePrice&) = default;
};

struct BoundYear {
  int year = 0;
  double paid_back = 0.0;           ///< the multipliers times the minutes that are there
  std::vector<MinutePrice> prices;  ///< by resource, then day
  friend bool operator==(const BoundYear&, const BoundYear&) = default;
};

/// What a method costs on a field at least, its minutes charged by the multipliers.
struct MethodFloor {
  int method = none;
  double cents = 0.0;           ///< sum over the years
  std::vector<double> by_year;  ///< only of the bound's own method and the plan's
  friend bool operator==(const MethodFloor&, const MethodFloor&) = default;
};

struct FieldFloor {
  int method = none;                 ///< the cheapest; none: every method is barred, it stays unplanted
  std::vector<MethodFloor> methods;  ///< the possible ones, in the book's order
  friend bool operator==(const FieldFloor&, const FieldFloor&) = default;
};

struct BoundProof {
  int rounds = 0;                   ///< of multipliers that were tried
  std::int64_t cents = 0;           ///< sum over the years, rounded down
  std::int64_t cents_a_year = 0;    ///< rounded down
  std::int64_t without_prices = 0;  ///< the sum if nothing were shared, rounded down
  std::vector<BoundYear> years;     ///< in the order of Plan::years
  std::vector<FieldFloor> fields;   ///< [field]
  friend bool operator==(const BoundProof&, const BoundProof&) = default;
};

}  // namespace aftercut::plan
