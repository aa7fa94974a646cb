#pragma once
// Where one field stands in its method: which step, which pass, what may run today.

#include "aftercut/dispatch/table.hpp"
#include "aftercut/method/recipe.hpp"
#include "aftercut/plan/fall_backs.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::dispatch {

struct Progress {
  const method::Recipe* recipe = nullptr;  ///< null: no method, nothing is done
  bool fell_back = false;
  int step = 0, pass = 0, passes = 0;  ///< passes 0: not yet fixed
  double area_done_ha = 0.0;           ///< of the current pass
  int last_end = 0;                    ///< day on which the step before ended (the harvest day at first)
  int pass_end = 0;                    ///< day on which the last pass of any step ended
  int rough_end = 0;                   ///< day on which the last pass ended that was no finishing pass
  bool started = false;                ///< the current step has been worked on
  bool filled = false;                 ///< the fill step is done and the boards are still in
  int passed_over = 0;
  int quiet_until = 0;  ///< settling does nothing before this day
  Waiting waits;
  int baled_by = plan::none;               ///< implement of the last baling stretch
  double bales_lie = 0.0;                  ///< share of the field that a baling covered which broke off
  double hauled_ha = 0.0;                  ///< taken off behind the baler: done of the haul to come
  bool clears = false;                     ///< those bales are hauled, then the fall-back takes over
  const plan::Instead* instead = nullptr;  ///< what-if of this field; null: none
};

/// What settling a morning did besides moving on: a step broken off with this share done.
struct BrokenOff {
  int operation = plan::none;
  double share = 0.0;
  std::optional<int> implement;  ///< of a baling; none: that of the last stretch
};
struct Settled {
  Progress progress;
  BrokenOff broken_off;
};

/// A recipe from its first step, on the morning after `day`.
Progress begin(const method::Recipe* recipe, int day, const plan::Instead* instead = nullptr);
/// A recipe (index; none: no method) where it takes up the field on the field's first morning.
Progress begin_on(const Table& table, std::size_t field, int recipe, const plan::Instead* instead = nullptr);

/// The morning of `day`: fall-back, steps left out or passed over, lags run out, passes counted.
Settled settle(const Table& table, std::size_t field, Progress progress, int day,
               const season::FieldYear& sim);

[[nodiscard]] bool finished(const Progress& p);
/// No step of autumn or winter is left, taking the boards out aside.
[[nodiscard]] bool straw_is_over(const Table& table, const Progress& p);
/// Share of the field that a pass of the current step covers.
double share_asked(const Progress& p);
const method::Step& current_step(const Progress& p);
const method::Operation& current_operation(const Table& table, const Progress& p);

/// How hard the ground of this morning pulls at the operation's tools: tillage only; the highest factor of
/// the soil for a finishing pass on too dry ground.
double draft_factor_of(const soil::Profile& soil, const method::Operation& operation,
                       const season::DayMask& mask);

/// Whether dates and lags let the current step run on the day.
bool is_due(const Table& table, std::size_t field, const Progress& p, int day);

/// Whether dates, lags and the mask let the current step run today (machines and water aside).
bool can_run(const Table& table, std::size_t field, const Progress& p, int day, const season::FieldYear& sim);

/// The current pass ended on `day`: the next pass or step.
Progress end_pass(const Table& table, Progress p, int day);

/// What the operation does to the field's boards when its pass ends.
void move_boards(season::FieldYear& sim, const method::Recipe& recipe, const method::Operation& operation);
/// What this implement works with; none: hand work.
straw::Tool tool_of(const farm::Farm& farm, int implement);

}  // namespace aftercut::dispatch
