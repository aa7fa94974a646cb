#pragma once
// Room machinery, lead header. Purpose: how long, how hard and how dear. Takes widths, speeds, depths,
// powers, prices and soil; gives hours, draft, power, fuel and hourly cost. Leaves out calendars and who
// works when.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/ids.hpp"
#include "aftercut/core/quantity.hpp"

namespace aftercut::machinery {

enum class Drive { two_wheel, front_assist, four_wheel, track };
enum class Ground { firm, tilled, soft };
/// How a machine turns onto the next pass. loop: forward all the way, a half circle where the pass is two
/// radii off, else a bulb. fishtail: two quarter turns with a reverse between. quicker: whichever takes less
/// time.
enum class Turn { loop, fishtail, quicker };
enum class SoilGroup { fine, medium, coarse };  ///< of the draft equation

struct DateRange {
  Date from, to;      ///< both included
  std::string why{};  ///< in the grower's words; empty: not said
  friend bool operator==(const DateRange&, const DateRange&) = default;
};

/// What a machine costs to own and mend; all money in the farm's currency of the price year.
struct Owning {
  Money price;          ///< list price today
  double years = 12.0;  ///< of ownership
  double hours_per_year = 300.0;
  double interest = 0.06;    ///< real, a year
  std::string value_class;   ///< row of the remaining-value table
  std::string repair_class;  ///< row of the repair table
};

struct Tractor {
  MachineId id;
  std::string name;
  KiloWatt pto_power;
  Drive drive = Drive::front_assist;
  Owning owning;
  std::vector<DateRange> away;  ///< held by harvest, in the shop
};

/// The chance that it is there from this day on.
struct ComesBy {
  Date day;
  double chance = 1.0;
  friend bool operator==(const ComesBy&, const ComesBy&) = default;
};

/// What a hired outfit does when a season's work is below its least area.
enum class BelowLeast { stays_away, charges_least };

/// A hired outfit's terms; unset prices are zero.
struct Hire {
  std::vector<DateRange> windows;     ///< days on which it can come; empty: every day
  Money per_ha, per_tonne, per_hour;  ///< per tonne of straw as baled
  Money call_out;                     ///< once a season if used at all
  bool brings_tractor = true;
  bool brings_operator = true;
  Money per_bale{};
  Hectare least_area{};  ///< of a season; 0: any
  BelowLeast below_least = BelowLeast::stays_away;
  bool rakes = false;                  ///< a baler's outfit rakes too, in its price
  std::vector<FieldId> order{};        ///< fields in its own order; those not listed come after them
  std::optional<Date> bales_off_by{};  ///< it takes the bales off, by this day or the day after baling
  std::vector<ComesBy> comes{};        ///< rising days and chances; empty: it is there from its first window
  std::optional<MachineId> with{};     ///< comes with another outfit, as its rake
};

/// The work that an implement does; the kind names used by methods.
struct Implement {
  MachineId id;
  std::string name;
  std::string kind;  ///< "rake", "baler", "bale_wagon", "chopper", "disk", "cage_roller", "chisel", "plane",
                     ///< "grooved_roller", "torch"
  Metre width;
  KmPerHour speed;
  double depth_cm = 0.0;
  double chop_length_mm = 0.0;      ///< that a chopper leaves; 0: not said
  int tools = 0;                    ///< shanks, for kinds counted by tools
  Fraction field_efficiency;        ///< typical value of the kind unless entered
  bool efficiency_entered = false;  ///< then it holds on every field, whatever its outline
  Metre turning_radius{6.0};        ///< with its tractor. Source: TurningRadius (assumed)
  Turn turns = Turn::quicker;
  int headland_rounds = 2;  ///< along the edge, before the straight passes
  Fraction stops{0.08};     ///< share of the hours on a field that it stands. Source: StopsShare (assumed)
  std::optional<double> entered_ha_per_day;  ///< overrides the computed rate; the difference is shown
  std::optional<TonnePerHour> throughput;    ///< caps the rate by straw mass (baler, wagon)
  std::optional<Hire> hire;                  ///< hired outfit; none: own
  Owning owning;
  std::vector<DateRange> away;
};

/// Rows of the implement table: typical field efficiency, speed range, repair factors, draft and rotary
/// power.
struct KindRow {
  std::string kind;
  double efficiency = 0.8;
  double speed_low_km_h = 5.0, speed_km_h = 8.0, speed_high_km_h = 10.0;
  double life_h = 2000.0, repair_factor_1 = 0.2, repair_factor_2 = 1.6;
  bool draft_by_tools = false;                         ///< W counts tools, else metres
  double draft_a = 0.0, draft_b = 0.0, draft_c = 0.0;  ///< N; S km/h; T cm
  bool depth_matters = false;                          ///< T is the depth, else 1
  double f_medium = 1.0, f_coarse = 1.0;
  double rotary_a_kw = 0.0, rotary_b_kw_per_m = 0.0, rotary_c_kwh_per_t = 0.0;
  double band_percent = 50.0;  ///< stated range of the draft or power value
  bool drives_passes = true;   ///< false: carried along the edge, an outline gives it no hours
};
/// Nothing for an unknown kind. Source: D497 (recalled) except rows marked assumed in docs/sources.md.
const KindRow* row_of(const std::string& kind);
std::vector<std::string> known_kinds();

}  // namespace aftercut::machinery
