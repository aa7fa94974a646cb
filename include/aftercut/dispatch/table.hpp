#pragma once
// Everything that does not change between evaluations: who can do what where, how fast, at what price, and on
// which days.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/problem.hpp"
#include "aftercut/journal/state.hpp"
#include "aftercut/plan/decision.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::dispatch {

/// An outfit that can do an operation on a field: which machines, how fast, what an hour takes.
struct Outfit {
  int tractor = plan::none;
  int implement = plan::none;    ///< none with tractor none: hand work
  bool own_crew = true;          ///< false: the hired outfit brings its people
  double ha_per_hour = 0.0;      ///< in ground of least draft
  double fuel_l_per_hour = 0.0;  ///< of the farm's own tank, in ground of least draft
  double pulled_kw = 0.0, rotary_kw = 0.0, tractor_kw = 0.0;  ///< at the PTO; 0 without a tractor of the farm
  double repair_per_hour = 0.0, ownership_per_hour = 0.0;     ///< own machines, money
};

/// An outfit's work and fuel on one day.
struct Pace {
  double ha_per_hour = 0.0;
  double fuel_l_per_hour = 0.0;
};
/// Where the ground pulls `draft_factor` times as hard at the implement: more fuel while the tractor has the
/// power, beyond it full fuel and a pace that falls as the power asked for rises above the tractor's. A
/// hired outfit's own tractor keeps its pace.
Pace pace_of(const Outfit& outfit, double draft_factor);
/// Its hectares an hour alone.
double rate_of(const Outfit& outfit, double draft_factor);

inline constexpr int long_ago = 100000;  ///< days since something that has not been

/// One weather year's days for burning.
struct BurnDays {
  std::vector<char> called;  ///< [day] the authority's call, sampled; never outside the season windows
  std::vector<char> open;    ///< [day] the rows of calendar and weather leave the day open
  std::vector<int> days_since_rain_reset;  ///< [day]; long_ago when none yet
};

/// Minutes after midnight between which a burn begins and ends.
struct BurnClock {
  int from_min = 0, until_min = 0;
};

/// A step that waits, done in part, while the step before it is done again over the rest of the field.
struct Waiting {
  int step = plan::none, pass = 0;
  double area_ha = 0.0;  ///< done of it; 0: none waits
};

/// Where a method takes up a field on its first morning, by what has been done there so far.
struct Start {
  int step = 0, pass = 0, passes = 0;  ///< passes 0: not yet fixed
  double area_done_ha = 0.0;           ///< of the current pass
  Waiting waits;
  double bales_lie = 0.0;                         ///< as in Progress
  double hauled_ha = 0.0;                         ///< of a baling that runs: bales that are off already
  int last_end = 0, pass_end = 0, rough_end = 0;  ///< as in Progress; the harvest day at first
  bool started = false, filled = false;
  int baled_by = plan::none;
  int implement = plan::none;  ///< of the pass that runs
  bool spring_begun = false;   ///< its spring tillage has begun
  bool breaks_off = false;     ///< the pass that runs is not the method's next: what was done takes effect
};

struct Table {
  const farm::Problem* problem = nullptr;
  std::uint64_t seed = 1;
  std::vector<season::YearDrivers> drivers;                    ///< [year]
  std::vector<std::vector<std::vector<Outfit>>> outfits;       ///< [field][operation], best first
  std::vector<std::vector<std::vector<std::string>>> why_not;  ///< [field][recipe], empty: possible
  std::vector<BurnDays> burn_days;                             ///< [year]
  burn::Limits burn_limits;
  std::vector<BurnClock> burn_clock;                            ///< [day]
  std::vector<std::vector<char>> tractor_here, implement_here;  ///< [machine][day]
  std::vector<std::vector<int>>
      place_in_order;  ///< [implement][field] in a hired outfit's own order; empty: none
  std::vector<std::vector<int>> hired_from;    ///< [year][implement] day from which a hired outfit is there;
                                               ///< after any day: it does not come
  std::vector<std::vector<int>> operator_min;  ///< [operator][day] minutes at work, 0: away
  std::vector<int> longest_min;  ///< [day] longest operator day, for outfits with their own people
  std::vector<std::vector<char>> has_skill;  ///< [operation][operator]
  std::vector<std::vector<std::vector<season::FieldYear>>>
      mornings;                              ///< [field][year][setting], see first_morning
  std::vector<std::vector<int>> setting_of;  ///< [field][recipe + 1]
  std::optional<journal::State> so_far;      ///< none: nothing has been done or seen yet
  std::vector<std::vector<Start>> starts;    ///< [field][recipe]
  std::vector<std::vector<char>> shut;       ///< [field][day] too wet for machines, by the owner's word
  std::vector<int> day_of_year_day;  ///< [32 month + day] season day that falls on it; read by day_of()
  std::vector<char> water_on;        ///< [day] the supply gives water
  std::vector<double> flow_times,
      burn_area_times;  ///< [day] of the supply's flow, of the area burned in a day; empty: once
  std::vector<std::vector<std::size_t>> fills_from, drains_to, seeps_from;  ///< [field] other fields
  std::vector<std::vector<char>> soft_roads;  ///< [year][day] soft roads carry no loaded wagons
  std::vector<std::vector<int>> move_min;     ///< [from][to] minutes between fields
  int shift_start_min = 0;
  int as_of_day = 0;
  double farm_area_ha = 0.0;
};

Table make_table(const farm::Problem& problem, std::uint64_t seed);

/// Calendar::day of a month and day, looked up.
inline int day_of(const Table& table, MonthDay md) {
  return table.day_of_year_day[static_cast<std::size_t>(32 * md.month + md.day)];
}

/// Whether a date lies in a yearly window (ends included, may run over the new year); false when an end is
/// missing.
bool in_window(Date date, const std::optional<MonthDay>& from, const std::optional<MonthDay>& to);

/// The field on the first morning on which it may be worked, under the recipe's combine setting (none: left
/// alone). Nothing that a plan decides comes before, so it is lived once for all evaluations.
const season::FieldYear& first_morning(const Table& table, std::size_t field, std::size_t year, int recipe);

/// Why a recipe cannot be used on a field, in plain words; empty: it can. Needs the table's outfits.
std::vector<std::string> why_not(const Table& table, std::size_t field, std::size_t recipe);

/// [field] recipes that can be used on it.
std::vector<std::vector<int>> possible_recipes(const Table& table);

/// Hours that an implement would take at its kind's typical efficiency, for each hour that it takes here.
double typical_hours_share(const farm::Farm& farm, std::size_t field, std::size_t implement);

/// Loose straw that a baler meets at harvest, oven-dry, at the field's cutting height [kg/ha].
KgPerHa loose_straw(const farm::Field& field);

/// The day from which a recipe's boards may come out on this field.
int drawdown_day(const Table& table, const farm::Field& field, const method::Recipe& recipe);

}  // namespace aftercut::dispatch
