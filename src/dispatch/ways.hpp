#pragma once
// Inside room dispatch: parts of the table: ways by road and water, the calendar.

#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::dispatch {

/// [from][to] minutes: folding and unfolding, then the way at road speed, up to a whole minute.
std::vector<std::vector<int>> move_minutes(const farm::Farm& farm);
/// [day] soft roads carry no loaded wagons: a day of much rain and those after it.
std::vector<char> soft_road_days(const farm::Farm& farm, const season::YearDrivers& year);
/// [field] the fields that its links of this kind name.
std::vector<std::vector<std::size_t>> linked(const farm::Farm& farm, farm::LinkKind kind);

/// [32 month + day] -> season day that falls on it; -1 where the calendar has no such day.
std::vector<int> season_days(const farm::Calendar& season);

}  // namespace aftercut::dispatch
