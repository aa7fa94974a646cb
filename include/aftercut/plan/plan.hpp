#pragma once
// A finished plan: what plan.json holds, as values. Days are season days; masses oven-dry; money in cents
// where int64.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/burn/emissions.hpp"
#include "aftercut/core/date.hpp"
#include "aftercut/farm/doubt.hpp"
#include "aftercut/plan/again.hpp"
#include "aftercut/plan/agenda.hpp"
#include "aftercut/plan/bound_proof.hpp"
#include "aftercut/plan/decision.hpp"
#include "aftercut/plan/environment.hpp"
#include "aftercut/plan/fall_backs.hpp"
#include "aftercut/plan/jobs.hpp"
#include "aftercut/plan/one_more.hpp"
#include "aftercut/plan/reasons.hpp"
#include "aftercut/plan/risk.hpp"
#include "aftercut/straw/load.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::plan {

/// Low, middle and high of a spread over years.
struct Spread {
  double p10 = 0.0, p50 = 0.0, p90 = 0.0;
  friend bool operator==(const Spread&, const Spread&) = default;
};
/// Ready days; empty: not by the cut-off in that share of years.
struct DaySpread {
  std::optional<int> p10, p50, p90;
};

/// Bales of one field over the shown years; fewer loads than bales, of whole bales each.
struct BaleCount {
  Spread bales;
  double loads = 0.0;    ///< for the middle count
  double twine_m = 0.0;  ///< for the middle count
  friend bool operator==(const BaleCount&, const BaleCount&) = default;
};

/// One method on one field with everything else of the plan as it is.
struct MethodOutcome {
  int method = none;
  bool possible = false;
  std::vector<std::string> why_not;  ///< in plain words; empty when possible
  CostParts mean_cost;               ///< of this field, mean over years, cents
  std::int64_t farm_cost = 0;      ///< of the whole farm with this method on this field, out of pocket, cents
  double machine_h_typical = 0.0;  ///< if each implement had its kind's typical field efficiency everywhere
  double machine_h = 0.0, labour_h = 0.0, fuel_l = 0.0, water_m3 = 0.0;
  std::map<std::string, double> machine_hours;  ///< by implement id
  Spread straw_left_kg_per_ha;
  DaySpread ready;
  double chance_ready = 0.0;           ///< by the planting date
  std::optional<int> last_safe_start;  ///< last day on which its first step may start and keep the wanted
                                       ///< chance; before its fall-back takes over
  double removed_n = 0.0, removed_p = 0.0, removed_k = 0.0;  ///< kg/ha, baled and burned
  burn::Emissions emissions;  ///< of burn and fuel on the field, kg, mean over years
  Environment environment;
  std::vector<std::string> notes;
  std::optional<BaleCount> bales;  ///< of a method that bales
};

struct Chosen {
  int method = none;
  straw::Lay lay = straw::Lay::spread;
  bool chopper = false;
  double cut_height_cm = 0.0;
  bool lay_fixed = false;  ///< cut already: a fact
  std::vector<std::string> because;
  bool locked = false;
  std::optional<NextBest> next_best;  ///< none: no other method is possible
  TossUp toss_up;
  std::optional<std::int64_t> wait_a_week;  ///< what the farm pays more, mean over years, if the field's
                                            ///< first step waits until a week after it could start; cents
  std::vector<HangsOn> hangs_on;            ///< the first is the one that its recipe names
};

/// Mean money of a calendar month; the months' means add up to the plan's, to the cent.
struct MonthCash {
  int year = 0, month = 0;
  CostParts mean;                 ///< out-of-pocket parts only
  std::int64_t p10 = 0, p90 = 0;  ///< of the month's sum in the shown years
};

/// Straw and seedbed of a field on one morning, over the shown years.
struct WinterWeek {
  int day = 0;
  Spread straw_kg_per_ha, pores_full;
  double under_water = 0.0;  ///< share of years
};
/// The day on which the seedbed was ready in one year; none: not by the cut-off.
struct ReadyIn {
  int year = 0;
  std::optional<int> day;
};

struct FieldPlan {
  double rut_chance = 0.0;  ///< of a field still standing: share of years in which its combine leaves ruts
  double load_kg_per_ha = 0.0, standing_kg_per_ha = 0.0, loose_kg_per_ha = 0.0;
  std::vector<MethodOutcome> methods;  ///< every recipe of the book, in its order
  Chosen chosen;
  std::vector<Job> jobs;            ///< of the chosen method over all years, by their middle first day
  std::vector<ReadyIn> ready_days;  ///< of the chosen method in the shown years; empty where nothing is due
  std::vector<WinterWeek> winter;   ///< the same years, a morning a week from harvest to planting
};

struct WeekUse {
  int first_day = 0;
  double used_h = 0.0;  ///< mean over years
  double available_h = 0.0;
};
struct ResourceUse {
  std::string id, kind;  ///< kind: tractor, implement, operator
  std::vector<WeekUse> weeks;
};

struct Caution {
  std::string about, text, source;
  std::vector<int> fields;
};

/// Something that is nobody's mistake and stands in the way, with the fields it touches.
struct Trouble {
  std::string name;  ///< short and fixed, e.g. "every method is barred"
  std::string text;
  std::vector<int> fields;
};

struct Plan {
  std::string version;
  std::uint64_t seed = 0;
  Date as_of;
  std::optional<Date> forecast_until;  ///< last day of the forecast; none: there is no forecast
  std::vector<int> years;              ///< all weather years played
  std::vector<int> shown_years;        ///< those behind chances and quantiles: not used by the search
  bool chances_in_sample = false;      ///< too few years to keep some apart
  weather::Estimated estimated;
  Decision decision;
  std::vector<FieldPlan> fields;
  int schedule_year = 0;  ///< the year whose work is shown
  std::vector<ResourceUse> resources;
  std::int64_t cost_cents = 0;  ///< out of pocket, mean over all years
  std::int64_t full_cost_cents = 0;
  std::optional<std::int64_t> bound_cents;  ///< none: no bound was worked out
  std::optional<OneMore> one_more;          ///< none: not worked out
  double wanted_chance = 0.0;
  RiskTold risk;
  std::vector<Caution> cautions;
  std::vector<Trouble> troubles;
  std::vector<std::vector<double>>
      workable_chance;  ///< [field][day] share of years in which a pass could run
  std::vector<FallBackTest> fall_back_tests;
  std::vector<DateToKeep> dates;    ///< by day
  std::vector<MonthCash> cash;      ///< by month, those with money in some year
  int evaluations = 0;              ///< changes that the search judged
  std::vector<farm::Doubt> doubts;  ///< of what was written down by its day
  std::optional<Again> again;       ///< against the plan that stood; none: made from nothing
};

/// Everything that is written: the plan and the run of every year, runs[i] for plan.years[i].
struct PlannedYears {
  Plan plan;
  std::vector<YearRun> runs;
  std::vector<std::vector<YearRun>> fall_back_runs;  ///< [fall_back_tests][shown_years]
  std::vector<YearRun> stood_runs;                   ///< of plan.again's `stood`, as runs; empty: none stood
  std::optional<BoundProof> bound;                   ///< of the plan's bound_cents
};

}  // namespace aftercut::plan
