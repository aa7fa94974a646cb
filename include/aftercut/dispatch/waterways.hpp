#pragma once
// Water between fields: what fills from whom, what drains to whom, what seeps, and the irrigator's storm
// rounds (docs/rules-of-work.md, "Water").

#include <vector>

#include "aftercut/dispatch/table.hpp"

namespace aftercut::dispatch {

inline constexpr double standing_water_mm = 20.0;  ///< water that counts as standing. Source: common practice
inline constexpr double met_slack_m3 = 1e-6;       ///< a need that is met but for this is met

/// The fields' water on the morning of a day.
struct MorningWater {
  std::vector<double> pond_mm;  ///< [field]; 0 before the harvest and once its seedbed is done
  std::vector<char> boards_in;  ///< [field]
};

/// Water stands on every field that this one fills from.
bool water_reaches(const Table& table, std::size_t field, const MorningWater& morning);
/// The boards of every field that this one drains to are out.
bool drain_is_free(const Table& table, std::size_t field, const MorningWater& morning);
/// The drain below is free and not yet full today, with so much drawn down already; one field always may.
bool may_draw_down(const Table& table, std::size_t field, const MorningWater& morning,
                   double drained_today_ha, double area_ha);
/// Canal water has come to the field before the plan's first day: its charge by field is paid.
bool watered_before(const Table& table, std::size_t field);
/// Mornings of the field's lease before then on which water stood; 0 when the lease was over by then.
int leased_before(const Table& table, std::size_t field);
/// What the canal gives on a day [m3].
double flow_of(const Table& table, int day);
/// What comes through the levees from neighbours under water [mm].
double seepage_mm(const Table& table, std::size_t field, const MorningWater& morning);

/// A round after heavy rain by whoever looks after the boards.
struct Round {
  int minutes = 0;
  plan::CostParts cost;
};
/// Nothing where the day's rain is no storm.
Round storm_round(const farm::Farm& farm, std::size_t field, double rain_mm);

}  // namespace aftercut::dispatch
