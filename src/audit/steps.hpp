#pragma once
// Where a field stands in its recipe, replayed from what was done: own reading of docs/rules-of-work.md,
// "Steps".

#include <optional>

#include "aftercut/season/field_year.hpp"
#include "facts.hpp"
#include "findings.hpp"

namespace aftercut::audit {

/// A field's place in its recipe on one morning.
struct Standing {
  int recipe = plan::none;  ///< active recipe of the book; none: nothing is done
  bool fell_back = false;
  int step = 0, pass = 0;
  int passes = 0;        ///< of the current step; 0: not counted yet
  double done_ha = 0.0;  ///< of the current pass
  bool begun = false;    ///< a minute was worked in the current step, or it is done over
  int before_ended = 0;  ///< day on which the step before ended; the harvest day at first
  int pass_ended = 0;    ///< day on which the last pass ended
  int roughed = 0;  ///< day on which the last pass that is no finishing pass ended; the harvest day at first
  int passed_over = 0;
  int last_implement = plan::none;     ///< of the current pass
  int baled_by = plan::none;           ///< implement of the last baling stretch
  double bales_lie = 0.0;              ///< share of the field that baling covered before it was cut short
  int waits_step = 0, waits_pass = 0;  ///< a step done in part, while the step before it is done again
  double waits_ha = 0.0;               ///< done of it; 0: none waits
  double hauled_ha = 0.0;              ///< bales taken off behind the baler, of the haul that is to come
  bool clears = false;                 ///< those bales are hauled, then the fall-back takes over
  plan::Instead instead;               ///< what-if of this field
};

/// A pass that was cut short on a morning: what was done of it counts.
struct Cut {
  int operation = plan::none;
  int implement = plan::none;
  double share = 0.0;
};
struct Morning {
  Standing standing;
  std::optional<Cut> cut;
};

Standing at_harvest(int recipe, int harvest_day);
/// The step that is current; null when all are done.
const method::Step* step_of(const farm::Farm& farm, const Standing& s);
const method::Operation* operation_of(const farm::Farm& farm, const Standing& s);
/// Falls back, does the step before over, leaves out, passes over and counts passes, in this order.
Morning morning(const farm::Farm& farm, int field, Standing s, int day, const season::FieldYear& life);
/// In the what-if this operation is never done on the field.
bool never_done(const Standing& s, int operation);
/// Nothing is left before spring but taking the boards out.
bool only_spring_left(const farm::Farm& farm, const Standing& s);
/// Hectares that a pass of the current step covers.
double asked_ha(const farm::Farm& farm, int field, const Standing& s);
/// A pass ended on `day`.
Standing pass_over(const farm::Farm& farm, Standing s, int day);

/// The day from which boards may come out.
int boards_out_from(const farm::Farm& farm, int field, int recipe);

/// The step's dates and lags, and what the mask of the day says of its operation.
Findings check_dates(const Facts& facts, const Place& place, const Standing& s);
Findings check_conditions(const farm::Farm& farm, const Place& place, const method::Operation& op,
                          const season::DayMask& mask);
/// No raking, baling or burning on rutted ground.
Findings check_ruts(const Place& place, const method::Operation& op, bool rutted);
/// A finishing pass begins on too dry ground only after it has waited its days.
Findings check_dry_wait(const farm::Farm& farm, const Place& place, const Standing& s,
                        const season::DayMask& mask);
/// The stretch is of the step and pass that are current.
Findings check_order(const farm::Farm& farm, const Place& place, const Standing& s, const plan::Work& w);

}  // namespace aftercut::audit
