#pragma once
// Burning on a day of a plan: calls drawn, rules of the day, hours, and the crew that waits for a call
// (docs/rules-of-work.md, "Burning").

#include <optional>

#include "aftercut/dispatch/day_pool.hpp"

namespace aftercut::dispatch {

/// The calls and open days of one weather year (index into Problem::years).
BurnDays burn_days_of(const Table& table, std::size_t year);
/// [day] hours that the rows of clock and sun leave for a burn.
std::vector<BurnClock> burn_clocks_of(const Table& table);

/// What the farm has burned so far, and whether a crew has waited in vain today.
struct BurnTally {
  double today_ha = 0.0, season_ha = 0.0;
  bool waited = false;
};

/// The calendar rows that hold on a date whatever the weather: windows, weekdays, dates.
bool date_is_open(const burn::Limits& limits, Date date);
/// The farm's field was harvested early and the day lies in the closed weeks, and no leave is entered.
bool closed_for_early_harvest(const burn::Limits& limits, const farm::Field& field, Date date);
/// Everything but the authority's call: day, drying, areas.
bool open_to_burn(const Table& table, std::size_t field, std::size_t year, int day, straw::Lay lay,
                  const BurnTally& tally);
/// What keeps a field whose next step is a burn from burning on a day that passes without one; nothing on a
/// day that its dates or the calendar rows close.
using HeldUpBy = int plan::DaysNotBurned::*;
std::optional<HeldUpBy> held_up_by(const Table& table, std::size_t field, std::size_t year, int day,
                                   const Progress& progress, const season::FieldYear& sim);
/// The wanted stretch, held inside the day's hours for a burn.
Wanted with_burn_clock(const Table& table, Wanted wanted, int day);

/// The crew of this stretch waits from the shift start for a call that does not come, half of the shortest of
/// their days. Nothing for people whom a hired outfit brings.
std::optional<Stretch> waiting_for_call(const Table& table, const Stretch& stretch, int day);

}  // namespace aftercut::dispatch
