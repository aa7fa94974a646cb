#pragma once
// Relative humidity at the hottest hour of a day, when a fire runs fastest.

#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

/// Vapour pressure of the day over that of saturated air at its highest temperature, share, at most 1. The
/// vapour pressure is held the same all day. Source: Allen1998 eq. 10, 11 (recalled)
double afternoon_humidity(const Day& day);

}  // namespace aftercut::weather
