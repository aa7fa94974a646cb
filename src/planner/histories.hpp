#pragma once
// Inside room planner: ways in which a field may have come to a step, few but far apart.

#include "aftercut/planner/openings.hpp"
#include "opened_ground.hpp"

namespace aftercut::planner {

/// A field on the morning from which a step is current.
struct History {
  season::FieldYear sim;
  bool filled = false;
  double dried_mm = 0.0;  ///< evaporated since water last stood, tillage or not
};
History begin_history(season::FieldYear sim);
void live_history_day(History& h, double water_in_mm);

/// From where a recipe is lived.
struct WhereFrom {
  std::optional<int>
      taken_over;  ///< the morning on which its fall-back takes over; none: it has none, or is one itself
  std::size_t first_step = 0;  ///< where the field's work so far has come to; it may have begun:
  bool begun = false;
  int passes_left = 0;       ///< of that step; 0: not yet fixed
  std::vector<double> done;  ///< [step] share of the field done of its first pass; empty: nothing
};

/// What is asked of one step.
struct StepAsked {
  const dispatch::Table* table;
  std::size_t field, year;
  const method::Recipe* recipe;
  const method::Step* step;
  std::optional<int> taken_over;  ///< the morning of the recipe's fall-back
};

const method::Operation& operation_of(const StepAsked& asked);
const farm::Field& field_of(const StepAsked& asked);

/// A day of one history on which the step's operation could be worked, and the field then.
struct Seen {
  std::vector<char> open, dry_already;    ///< [day]
  std::vector<double> cost_cents, draft;  ///< [day]
  std::vector<int> next_passes;           ///< [day]
};

/// How often a step's work is done at least and at most behind some histories; most 0: nothing is to be done.
struct PassCount {
  int fewest = 0, most = 0;
};

/// A step from a few histories: what it meets, and the field behind it.
struct StepTaken {
  std::vector<Opening> passes;  ///< empty: nothing is to be done
  std::vector<History> done, passed_over, left_out;
  std::optional<int> free_from;  ///< the day from which it may be passed over
};

/// Lives the steps of a recipe, keeping ways far apart in which they may have been done.
class Histories {
 public:
  Histories(const dispatch::Table& table, std::size_t field, std::size_t year, const method::Recipe& recipe,
            WhereFrom where = {});
  [[nodiscard]] PassCount count(const method::Step& step, const std::vector<History>& from) const;
  /// The fewest passes, and behind the last one all that there may be. `before`: the passes before it.
  StepTaken take(const method::Step& step, std::vector<History> from,
                 const std::vector<Opening>& before = {});
  /// Each of these counts of passes (at least one) apart, rising.
  std::vector<StepTaken> take_each(const method::Step& step, std::vector<History> from, int fewest, int most,
                                   const std::vector<Opening>& before);
  [[nodiscard]] const std::vector<double>& most_evaporation() const { return most_evaporation_; }

 private:
  struct Met {
    Opening opening;
    std::vector<History> snapshots, passed_over;
  };
  [[nodiscard]] StepAsked asked_of(const method::Step& step) const;
  /// The field's work so far has come into this step.
  [[nodiscard]] bool has_begun(const method::Step& step) const;
  [[nodiscard]] std::optional<int> given_up(const StepAsked& asked) const;
  /// Those that the step does not apply to, taken out of them.
  [[nodiscard]] std::vector<History> left_out_of(std::vector<History>& from, const method::Step& step) const;
  /// What the step's kth pass meets from these histories.
  Met open(const StepAsked& asked, int pass, const std::vector<History>& from, int live_until,
           int quiet_until);
  void live_one(const StepAsked& asked, History h, int until, Seen& seen, std::vector<History>& snapshots);
  void end_day(History& h);
  [[nodiscard]] History worked(const StepAsked& asked, History h, int passes) const;
  [[nodiscard]] std::vector<History> worked_far_apart(const StepAsked& asked,
                                                      const std::vector<History>& snapshots, int fewest,
                                                      int most) const;
  [[nodiscard]] Opening opening_of(const StepAsked& asked, const Seen& seen, int quiet_until) const;

  const dispatch::Table& t_;
  std::size_t field_, year_;
  const method::Recipe& recipe_;
  WhereFrom where_;
  std::vector<History> passed_over_;  // of the step in hand
  std::vector<double> most_evaporation_;
  OpenedGround opened_;
};

}  // namespace aftercut::planner
