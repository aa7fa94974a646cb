#pragma once
// Room season, lead header. Purpose: the day loop that alone couples the physics. Takes a farm's field, a
// weather year and what is done on each day; gives the day's mask, straw, soil and water, with every balance
// checked. Leaves out who does it.

#include <cstddef>
#include <span>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/method/recipe.hpp"
#include "aftercut/season/life.hpp"
#include "aftercut/soil/water.hpp"
#include "aftercut/straw/burial.hpp"
#include "aftercut/straw/moisture.hpp"
#include "aftercut/straw/pools.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::season {

inline constexpr double flooded_above_mm = 10.0;     ///< less is puddles
inline constexpr double pond_stops_drying_mm = 1.0;  ///< water that stands: the drying starts anew

/// The farm's settings of straw, made ready for the day loop.
struct Rates {
  straw::DryingRates drying;
  straw::DecayRates decay;
  straw::NitrogenSettings nitrogen;
};

/// One weather year's numbers that every field shares; element d is season day d.
struct YearDrivers {
  int year = 0;
  Rates rates;
  std::vector<double> rain_mm, et0_mm, air_c, equilibrium_db, wind_m_s;
  std::vector<double> straw_wetting_mm;  ///< rain and dew
  std::vector<double> air_factor;        ///< of decay
};
YearDrivers drivers_of(const weather::Year& year, const farm::Farm& farm);

struct GroundPull {
  bool too_dry = false;  ///< the seedbed's mean is below the dry tillage limit
  double draft_factor =
      1.0;  ///< pull of tillage tools against that in the easiest ground; opened ground has 1
};

/// What is known of a field on the morning of a day: the state at the end of yesterday, and the day's own
/// rain.
struct DayMask {
  bool cut = false;  ///< harvested before today
  bool workable =
      false;  ///< the slow end of the field is below the wet tillage limit, and has been for its days
  bool too_dry = false;       ///< as in GroundPull
  double draft_factor = 1.0;  ///< as in GroundPull
  bool drive_light = false, drive_heavy = false, drive_tracked = false;
  double straw_moisture_percent = 0.0;  ///< wet basis, of loose straw on top, this afternoon
  double ponded_mm = 0.0;
  double rain_mm = 0.0;
  double drying_mm = 0.0;  ///< evaporated since the last tillage pass (or since drawdown)
};

/// All that a field is on a morning; the weather is not in it.
struct Moment {
  int day = 0;  ///< about to be lived
  Life life;
  straw::Lay lay = straw::Lay::spread;
  double straw_length_mm = 0.0, rut_depth_mm = 0.0;
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
  /// The mask's pull of the ground this morning, were it `opened` (0 closed to 1) and its seedbed this much
  /// wetter.
  [[nodiscard]] GroundPull ground_pull(double opened, double wetter_mm) const;
  /// An operation (or the `share` of it that was done) ends today, done with this tool. Effects hold from now
  /// on.
  void apply(const method::Operation& operation, double share = 1.0, const straw::Tool& with = {});
  void set_boards(double height_mm);  ///< 0: boards out
  /// Water that would bring the pond to `target_mm` today [mm]: soil first, then depth.
  [[nodiscard]] double fill_need_mm(double target_mm) const;
  /// Lives the rest of the day with this canal water and goes on to the next. Throws when a balance does not
  /// close.
  void end_day(double water_in_mm);

  [[nodiscard]] Moment moment() const;
  /// Goes on from a moment of another life of the same field. Before the harvest it keeps its own setting of
  /// the combine.
  void go_on_from(const Moment& moment);
  /// The straw on top (standing, lying, pressed in) is found to be `times` what was thought.
  void find_straw(double times);
  /// So much water is found in the seedbed, below it and on top, and the ground to have been workable for so
  /// many evenings. Throws when a layer cannot hold it.
  void find_water(const soil::WaterState& water, double dry_days);

  [[nodiscard]] straw::Lay lay() const { return lay_; }
  [[nodiscard]] const straw::Pools& pools() const { return life_.pools; }
  /// Straw by which passes are chosen [kg/ha]: long straw counts for more.
  [[nodiscard]] double straw_for_passes() const;
  [[nodiscard]] const soil::WaterState& water() const { return life_.water; }
  [[nodiscard]] const StrawLedger& straw_ledger() const { return life_.straw; }
  [[nodiscard]] const WaterLedger& water_ledger() const { return life_.water_sum; }
  [[nodiscard]] const Life& life() const { return life_; }
  [[nodiscard]] const soil::GroundOf<double>& ground() const { return ground_; }
  [[nodiscard]] bool boards_are_in() const { return life_.board_mm > 0.0; }
  [[nodiscard]] bool rutted() const { return life_.rutted_share > 0.0; }
  [[nodiscard]] double cover() const { return life_.cover; }  ///< share of the soil under straw on top

 private:
  friend class SideBySide;

  void remove_straw(double share_of_flat, double share_of_standing, double& straw_sum, double& nitrogen_sum);
  void lay_straw();
  void drive_combine();
  void day_is_over();
  [[nodiscard]] bool drained() const { return day_ >= drain_day_; }

  const farm::Farm* farm_;
  const farm::Field* field_;
  const soil::Profile* profile_;
  const YearDrivers* drivers_;
  method::HarvestSetting setting_;
  soil::GroundOf<double> ground_;
  soil::TrafficContents traffic_;
  int day_ = 0;
  int harvest_day_ = 0, drain_day_ = 0;
  double rut_depth_mm_ = 0.0;
  straw::Lay lay_ = straw::Lay::spread;
  double straw_length_mm_ = 0.0;
  Life life_;
};

/// Lives fields of one farm that are all at the same day up to the morning of `day`, without canal water:
/// side by side, lane by lane, bit for bit what end_day() of each would come to.
void live_until(std::span<FieldYear* const> fields, int day);

}  // namespace aftercut::season
