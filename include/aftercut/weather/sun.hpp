#pragma once
// Sunrise and sunset. Source: NOAAsolar general solar position equations (read, three copies).

#include "aftercut/core/date.hpp"
#include "aftercut/core/quantity.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

/// Minutes after local standard midnight. Polar day or night: sunrise == sunset == noon, length 24 or 0 h.
struct SunTimes {
  double sunrise_min = 0.0;
  double noon_min = 0.0;
  double sunset_min = 0.0;
  double length_h = 0.0;
};

/// Within 2 minutes of an almanac between 60 S and 60 N.
SunTimes sun_times(const Site& site, Date date);

}  // namespace aftercut::weather
