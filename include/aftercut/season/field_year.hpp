#pragma once
// Room season, lead header. Purpose: the day loop that alone couples the physics. Takes a farm's field, a
// weather year and what is done on each day; gives the day's mask, straw, soil and water, with every balance
// checked. Leaves out who does it.

#include <cstddef>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/method/recipe.hpp"
#include "aftercut/soil/water.hpp"
#include "aftercut/straw/moisture.hpp"
#include "aftercut/straw/pools.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::season {

/// One weather year's numbers that every field shares; element d is season day d.
struct YearDrivers {
  int year = 0;
  std::vector<double> rain_mm, et0_mm, air_c, equilibrium_db, wind_m_s;
  std::vector<double> straw_wetting_mm;  ///< rain and dew
  std::vector<double> air_factor;        ///< of decay
};
YearDrivers drivers_of(const weather::Year& year, const farm::Farm& farm);

/// What is known of a field on the morning of a day: the state at the end of yesterday, and the day's own
/// rain.
struct DayMask {
  bool cut = false;  ///< harvested before today
  bool workable =
      false;  ///< the slow end of the field is below the wet tillage limit, and has been for its days
  bool drive_light = false, drive_heavy = false, drive_tracked = false;
  double straw_moisture_percent = 0.0;  ///< wet basis, of loose straw on top, this afternoon
  double ponded_mm = 0.0;
  double rain_mm = 0.0;
  double drying_mm = 0.0;  ///< evaporated since the last tillage pass (or since drawdown)
};

/// What happened to the straw of one field in one year, each summed where it happened [kg/ha].
struct StrawLedger {
  double in = 0.0, baled = 0.0, burned = 0.0, decayed = 0.0;
};
/// Summed fluxes of the water balance since the season's first day [mm].
struct WaterLedger {
  double start_store = 0.0;
  soil::WaterFluxes sum;
};

/// One field lived through one weather year, day by day. A value: copies go separate ways.
/// Before the harvest the field is bare of loose straw and under crop; on the harvest day the straw is laid.
class FieldYear {
 public:
  /// `setting` holds for a field still standing; a cut field keeps its own lay and cutting height.
  /// Throws InternalError when the drivers do not cover the season.
  FieldYear(const farm::Farm& farm, std::size_t field, const YearDrivers& drivers,
            const method::HarvestSetting& setting);

  [[nodiscard]] int day() const { return day_; }  ///< the day about to be lived
  [[nodiscard]] DayMask mask() const;
  /// An operation (or the `share` of it that was done) ends today. Effects hold from now on.
  void apply(const method::Operation& operation, double share = 1.0);
  void set_boards(double height_mm);  ///< 0: boards out
  /// Water that would bring the pond to `target_mm` today [mm]: soil first, then depth.
  [[nodiscard]] double fill_need_mm(double target_mm) const;
  /// Lives the rest of the day with this canal water and goes on to the next. Throws when a balance does not
  /// close.
  void end_day(double water_in_mm);

  [[nodiscard]] straw::Lay lay() const { return lay_; }
  [[nodiscard]] const straw::Pools& pools() const { return pools_; }
  [[nodiscard]] const soil::WaterState& water() const { return water_; }
  [[nodiscard]] const StrawLedger& straw_ledger() const { return straw_; }
  [[nodiscard]] const WaterLedger& water_ledger() const { return ledger_; }
  [[nodiscard]] bool boards_are_in() const { return board_mm_ > 0.0; }
  [[nodiscard]] bool rutted() const { return rutted_share_ > 0.0; }
  [[nodiscard]] double cover() const { return cover_; }  ///< share of the soil under straw on top

 private:
  void lay_straw();
  void live_water(double water_in_mm);
  void live_straw(bool flooded);

  const farm::Farm* farm_;
  const farm::Field* field_;
  const soil::Profile* profile_;
  const YearDrivers* drivers_;
  method::HarvestSetting setting_;
  straw::DryingRates drying_;
  straw::DecayRates decay_;
  soil::TrafficContents traffic_;
  int day_ = 0;
  int harvest_day_ = 0, drain_day_ = 0;
  soil::WaterState water_;
  straw::Pools pools_;
  straw::Lay lay_ = straw::Lay::spread;
  double cover_ = 0.0;
  double moisture_db_ = 0.0;
  double running_mean_c_ = 0.0;
  double board_mm_ = 0.0;
  double opened_ = 0.0;
  double drying_mm_ = 0.0;
  double rutted_share_ = 0.0;
  int dry_days_ = 0;  // ends of day in a row on which the ground could be worked
  StrawLedger straw_;
  WaterLedger ledger_;
};

}  // namespace aftercut::season
