#pragma once
// Room method, lead header. Purpose: what can be done with straw, as data. Takes a JSON text of operations
// and methods (the built-in one or the farm's own methods.json); gives recipes: ordered steps with conditions
// and effects. Leaves out fields, days and machines' ids.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/ids.hpp"
#include "aftercut/core/result.hpp"
#include "aftercut/soil/water.hpp"
#include "aftercut/straw/load.hpp"
#include "aftercut/straw/pools.hpp"

namespace aftercut::method {

/// What must hold on a day for the operation to run on it.
struct Condition {
  bool workable = false;     ///< seedbed below the wet tillage limit and nothing standing on it
  bool not_too_dry = false;  ///< a finishing pass: waits a while for a seedbed above the dry tillage limit
  bool can_drive = true;     ///< trafficable for the load class
  std::optional<double> most_straw_moisture_percent;  ///< wet basis, of straw on top
  std::optional<double> least_ponded_mm;              ///< rolling wants shallow water
  std::optional<double> most_ponded_mm;
  std::optional<double> most_rain_mm;     ///< of the day itself
  std::optional<double> least_drying_mm;  ///< evaporated since the field's last tillage pass; none asked of a
                                          ///< seedbed below its dry tillage limit
};

/// What a finished operation does to the field.
struct Effect {
  straw::Transfer straw;
  double usual_depth_cm = 0.0;  ///< that the share `bury` stands for; 0: it holds at any depth and length
  double bale_share = 0.0;      ///< of the flat straw, taken off
  std::optional<double> bale_share_spread;  ///< the same where the combine spread the straw; none: bale_share
  double burn_share_flat = 0.0, burn_share_standing = 0.0;
  std::optional<straw::Lay> lay_after;  ///< scatter: spread; chop: chopped; rake: windrow
  std::optional<double> opened;         ///< 1 opened ground, 0 closed (rolled)
  bool mends_ruts = false;
};

enum class Water { none, boards_in, fill, boards_out };

/// One kind of work.
struct Operation {
  OperationId id;
  std::string name;       ///< for people, e.g. "disk"
  std::string implement;  ///< implement kind; empty: hand work
  bool tractor = true;    ///< needs a tractor of the farm
  int crew = 1;
  std::string skill;               ///< that each of the crew must have; empty: any operator
  double labour_min_per_ha = 0.0;  ///< for hand work
  soil::LoadClass load = soil::LoadClass::light;
  Condition when;
  Effect effect;
  Water water = Water::none;
  bool tillage = false;  ///< opens or refines ground: counts for the drying lag
  bool burning = false;
};

/// Straw left above `above_kg_per_ha` asks for so many passes; the last row that is exceeded holds.
struct PassRow {
  double above_kg_per_ha = 0.0;
  int passes = 1;
  friend bool operator==(const PassRow&, const PassRow&) = default;
};

enum class Season { autumn, winter, spring };

struct Step {
  int operation = 0;               ///< index into Book::operations
  Season season = Season::autumn;  ///< which priority list it follows
  std::optional<MonthDay> earliest;
  std::optional<MonthDay> give_up;   ///< not started by then: passed over
  int least_lag_days = 0;            ///< whole days between the end of the step before and this one
  std::optional<int> most_lag_days;  ///< from the end of the step before; beyond: that step is repeated
  std::vector<PassRow> passes;       ///< empty: once
  bool only_if_windrow = false;      ///< the scatter pass before working unbaled windrows
  bool only_if_rutted = false;
  friend bool operator==(const Step&, const Step&) = default;
};

struct WaterWanted {
  bool from_canal = false;  ///< false with boards: rain only
  double target_mm = 0.0;
  double board_mm = 0.0;
  bool keep_up = false;      ///< topped up from the canal until drawdown
  MonthDay draw_down{2, 1};  ///< boards out from this day on; a lease may hold it longer
};

struct FallBack {
  std::string trigger;  ///< in words: "not burned", "baler has not come"
  MethodId method;
  MonthDay start_by;  ///< own straw step not finished by then: the fall-back's steps replace the rest
};

/// How the combine should leave the field for this method (for a field still standing).
struct HarvestSetting {
  straw::Lay lay = straw::Lay::spread;
  double cut_height_cm = 30.0;
};

struct Recipe {
  MethodId id;
  std::string name;     ///< for people
  std::string summary;  ///< one sentence
  HarvestSetting harvest;
  std::vector<straw::Lay> takes;  ///< lays of an already cut field that it can start from
  std::vector<Step> steps;        ///< straw steps, then the spring chain
  std::optional<WaterWanted> water;
  std::optional<FallBack> fall_back;
  bool burns = false, bales = false;
};

/// All operations and recipes of a farm.
struct Book {
  std::vector<Operation> operations;
  std::vector<Recipe> recipes;
  std::vector<Step> spring_chain;  ///< also alone: the chain of a field whose method is done
};

/// Reads a book. Keys: docs/methods.md. Issues carry `file`.
Result<Book> read_book(std::string_view json, const std::string& file);
/// The built-in methods (src/method/builtin_methods.json).
const Book& builtin_book();
/// The built-in book with own operations and recipes added or, by the same id, replaced.
Result<Book> extend(const Book& base, std::string_view json, const std::string& file);
/// The same book with every month-day six months later, for the other hemisphere; the last day of a shorter
/// month.
Book half_a_year_later(Book book);

}  // namespace aftercut::method
