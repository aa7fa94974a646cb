#pragma once
// One storm out of the record, laid on a day of other weather years (docs/rules-of-work.md, "When the others
// do not come").

#include <string>

#include "aftercut/farm/farm.hpp"
#include "aftercut/plan/fall_backs.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::scenario {

/// "36 mm in 3 days", by the farm's own measure.
std::string storm_words(const farm::Farm& farm, const plan::Storm& storm);
/// A depth of water by the farm's own measure.
std::string depth_words(const farm::Farm& farm, double mm);

/// Days before `day` on which a storm of that part of the season may begin; as many from it on.
inline constexpr int storm_season_days = 14;

/// Of the wettest days in a row that each year had in that part of the season, the one that one year in so
/// many goes beyond. At least one year; settings.days fit into the season.
plan::Storm storm_at(const weather::Years& years, const farm::StormSettings& settings, int day);
/// The year with the storm's days from `day` on; unchanged where its own days are as wet.
weather::Year with_storm(weather::Year year, const weather::Years& record, const plan::Storm& storm, int day);

}  // namespace aftercut::scenario
