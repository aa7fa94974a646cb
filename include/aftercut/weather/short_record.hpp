#pragma once
// A season made out of a record that is shorter than one: better than no plan, and said so wherever it is
// used.

#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

/// One year: each season day takes the recorded day nearest to it in the calendar (of equals, the earlier
/// one). The record must hold at least one day. Chances from it mean nothing.
Years stretched_over_season(const Series& series, const Site& site, Date season_first, int season_days);

}  // namespace aftercut::weather
