#pragma once
// A burn of the plan against the authority's call, the calendar, the caps on area, drying days, weather and
// hours; and the crew that waits for a call in vain.

#include "field_replay.hpp"

namespace aftercut::audit {

struct BurnDay {
  bool called = false;
  int days_since_rain_reset = 0;  ///< large when it has not rained that much yet this season
  weather::Day sky;
  double burned_today_ha = 0.0;  ///< before this burn
  double burned_season_ha = 0.0;
};
/// Season days since rain reset the drying, [season day].
std::vector<int> days_since_rain_reset(const burn::Limits& limits, const std::vector<double>& rain_mm);

/// Windows, weekdays and dates leave the day open, and it is not closed to an early harvest of the field.
bool calendar_open(const Facts& facts, const farm::Field& field, Date day);
/// Whole minutes after midnight between which a burn lies that day, by clock and sun.
struct BurnHours {
  int from_min = 0, until_min = 0;
};
BurnHours burn_hours(const Facts& facts, Date day);

Findings check_burn(const Facts& facts, const Place& place, const FieldReplay& field, const plan::Work& w,
                    const BurnDay& day);

/// A day that ends without the burn that was the field's next step, counted by what held it up.
plan::DaysNotBurned count_not_burned(const Facts& facts, const Place& place, const FieldReplay& field,
                                     const BurnDay& day);
/// A crew that stood by: the field was open to a burn but for the call, and half a day was lost, no more.
Findings check_wait(const Facts& facts, const Place& place, const FieldReplay& field, const plan::Work& w,
                    const BurnDay& day);
/// Wages and hours of a wait.
FieldReplay waited(const Facts& facts, FieldReplay field, const plan::Work& w);
/// Nobody stood by on a day without a call, though a field was open to a burn and its crew idle.
Findings check_waits_of_day(const Facts& facts, int year, int day, const std::vector<FieldReplay>& fields,
                            const std::vector<plan::Work>& work, const BurnDay& burn_day);

/// Why a method that burns is barred on the field; empty: it is not.
std::vector<std::string> barred_by_fire(const Facts& facts, int field, const method::Recipe& recipe);

}  // namespace aftercut::audit
