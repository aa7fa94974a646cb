#pragma once
// The checked farm and its weather: what every room above plans with, plays or audits. read.hpp makes it.

#include <optional>

#include "aftercut/farm/farm.hpp"
#include "aftercut/farm/so_far.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::farm {

struct Problem {
  Farm farm;
  weather::Years years;
  weather::Estimated estimated;
  weather::Series record;  ///< the whole record that the years were cut from
  std::optional<weather::Series> forecast;
  /// Of the season being planned, from its first day on: days before `as_of` that have been recorded. They
  /// stand in every year in the place of its own.
  std::optional<weather::Series> seen;
  SoFar so_far;
  Date as_of;  ///< the first day on which work may be planned
};

}  // namespace aftercut::farm
