#pragma once
// Room journal, lead header. Purpose: what was really done and seen, append-only, and what follows from it:
// every field's straw, water and work on a morning. Takes a farm, its weather so far and the journal's
// entries; gives the state. Leaves out plans. The state of a morning is a pure function of the entries done
// by then (docs/journal.md).

#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/problem.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::journal {

/// An operation whose passes on a field are over, or one after the other until another operation began.
struct Stage {
  int operation = 0;
  int passes = 0;                   ///< finished
  bool no_more = false;             ///< the owner wants no further pass
  bool unsaid = false;              ///< its parts came to the whole field, nobody wrote that it was finished
  int first_day = 0, last_day = 0;  ///< season days of its first stretch and of its last finished pass
  int implement = farm::nobody;     ///< of the last stretch
  double straw_for_passes = 0.0;    ///< on the morning of its first stretch [kg/ha]
  friend bool operator==(const Stage&, const Stage&) = default;
};

/// A pass that has begun.
struct Running {
  int operation = 0;
  double area_ha = 0.0;
  int first_day = 0, last_day = 0;
  int implement = farm::nobody;
  double straw_for_passes = 0.0;
  friend bool operator==(const Running&, const Running&) = default;
};

/// What was seen on a field beside what the model had thought, and what it goes on with.
enum class Seen { cover, straw_on_top, workable, standing_water, rain };
struct Difference {
  std::optional<std::size_t> field;  ///< none: the whole farm
  int day = 0;
  Seen what = Seen::cover;
  double model = 0.0, seen = 0.0, used = 0.0;  ///< share, kg/ha, 0 or 1, mm, mm
  friend bool operator==(const Difference&, const Difference&) = default;
};

struct FieldState {
  season::Moment now;
  std::vector<Stage> done;  ///< in order
  std::optional<Running> running;
  std::optional<Running> baling_waits;  ///< a baling begun, while its straw is raked anew, which is what runs
  std::optional<Running> behind_baler;  ///< hauling while the baling, which runs or waits, goes on
  double bales_lie = 0.0;               ///< share of the field on which bales lay when a pass last ended
  int baled_by = farm::nobody;          ///< implement of the last baling, under way or done
  int last_end = farm::nobody;          ///< season day on which the last pass ended; none yet
  int rough_end = farm::nobody;         ///< the same of passes that are no finishing passes
  bool filled = false;                  ///< a fill was met and the boards are still in
  bool watered = false;                 ///< canal water has come this season
  double water_m3 = 0.0;                ///< canal water so far, as the model has it
  int lease_days = 0;                   ///< mornings of its water lease on which water stood
  std::optional<double> water_wanted_mm;  ///< the canal is on, for this depth
  double straw_spread = 0.0;              ///< standard deviation of the straw on top, as a share of it
  double straw_spread_then = 0.0;         ///< the same at harvest, or when the straw was last counted
  double straw_loss_since = 0.0;          ///< what has rotted since, as a logarithm of the mass
  double seedbed_spread_mm = 0.0;         ///< standard deviation of the seedbed's water
};

/// What an implement that is hired has done.
struct HiredSoFar {
  bool here = false;  ///< it has come, whether it has worked or not
  bool called_out = false;
  double area_ha = 0.0;
  friend bool operator==(const HiredSoFar&, const HiredSoFar&) = default;
};

struct State {
  int day = 0;                         ///< the morning it is of
  std::vector<FieldState> fields;      ///< [field]
  std::vector<HiredSoFar> implements;  ///< [implement]
  double burned_ha = 0.0;
  std::vector<Difference> differences;  ///< by day, then the journal's order
};

/// The state on the morning of the problem's as-of day; nothing where nothing has happened yet.
std::optional<State> state_of(const farm::Problem& problem);

/// Share of a field of this area on which bales lie this morning, passes that run counted.
double bales_lying(const farm::Farm& farm, const FieldState& field, double field_ha);

/// Numbers to the last bit, for comparing two states.
std::string text_of(const State& state);

}  // namespace aftercut::journal
