#pragma once
// The checked farm and its weather: what every room above plans with, plays or audits. read.hpp makes it.

#include <optional>

#include "aftercut/farm/farm.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::farm {

struct Problem {
  Farm farm;
  weather::Years years;
  weather::Estimated estimated;
  weather::Series record;  ///< the whole record that the years were cut from
  std::optional<weather::Series> forecast;
  Date as_of;  ///< the first day on which work may be planned
};

}  // namespace aftercut::farm
