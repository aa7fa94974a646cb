#pragma once
// What holds in every year, worked out afresh from the problem: paces, hourly costs, daylight, burn calls,
// barred methods.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/problem.hpp"
#include "aftercut/journal/state.hpp"
#include "aftercut/machinery/cost.hpp"
#include "aftercut/plan/decision.hpp"
#include "aftercut/plan/fall_backs.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::audit {

struct Facts {
  const farm::Problem* problem = nullptr;
  std::uint64_t seed = 0;
  std::vector<machinery::HourlyCost> tractor_cost, implement_cost;  ///< [machine] zero for hired outfits
  std::vector<int> daylight_min;                                    ///< [season day]
  burn::Limits burn_limits;                                         ///< empty without a jurisdiction
  double farm_area_ha = 0.0;
  int longest_operator_min = 0;
  int shift_start_min = 0;
  std::optional<journal::State> so_far;  ///< none: nothing has been done or seen yet
  bool no_calls = false;                 ///< what-if: the authority calls no day
  std::vector<plan::Instead> instead;    ///< [field] what-if; empty: none

  [[nodiscard]] const farm::Farm& farm() const { return problem->farm; }
};
Facts facts_of(const farm::Problem& problem, std::uint64_t seed);

/// Loose straw at harvest [kg/ha, oven-dry]: load less the stubble below the field's cutting height.
double loose_straw(const farm::Field& field);
/// The ground under the tractor while this operation runs.
machinery::Ground ground_of(const method::Operation& op);
/// Power that the implement asks for on this field at the PTO [kW].
double power_asked(const farm::Farm& farm, int field, const method::Operation& op, int tractor,
                   int implement);

/// How fast an outfit works on a field, and what it takes from the farm's own tank.
struct Pace {
  double ha_per_hour = 0.0;
  double fuel_l_per_hour = 0.0;
};
/// `draft_factor`: how many times as hard the ground pulls at the implement that day.
Pace pace_of(const farm::Farm& farm, const plan::Work& work, double draft_factor);
/// The factor for this operation, of the morning's mask: 1 unless it tills; what wilting ground asks for
/// where a finishing pass works ground below its dry limit.
double draft_factor_of(const soil::Profile& soil, const method::Operation& op, const season::DayMask& mask);

/// The outfit of machines alone can do the operation on this field: kind, tractor there or not, power. Empty:
/// yes.
std::string outfit_fault(const farm::Farm& farm, int field, const method::Operation& op, int tractor,
                         int implement);
/// Some outfit of the farm, with people who have the skill, can do it. Empty: yes.
std::string nobody_can(const farm::Farm& farm, int field, const method::Operation& op);

/// The authority calls day d of this weather year (own draw).
bool burn_called(const Facts& facts, int year, int day);
/// Reasons why the recipe is barred on the field; empty: possible.
std::vector<std::string> barred(const Facts& facts, int field, int recipe);

}  // namespace aftercut::audit
