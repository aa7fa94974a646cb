#pragma once
// What a method could at best meet on a field in one weather year: for each pass the days on which any
// history of the field lets it be worked, the fewest passes, the least money. The bound stands on it, so it
// errs on the hopeful side only (docs/bound.md).

#include <cstdint>
#include <optional>
#include <vector>

#include "aftercut/dispatch/table.hpp"

namespace aftercut::planner {

/// One pass of a step.
struct Opening {
  int operation = plan::none;
  double share = 1.0;               ///< of the field, that it covers
  std::vector<std::uint16_t> days;  ///< rising season days on which the pass could be worked
  std::vector<char> dry_already;    ///< [days] too dry ground: no drying is waited for
  std::vector<double> draft;        ///< [days] least pull of the ground, 1 or more; empty: 1
  std::vector<double>
      cost_cents;                ///< [days] least money that comes with the pass, incomes negative; empty: 0
  std::vector<int> next_passes;  ///< [days] least passes of the step behind when this one ends then
  std::vector<char> may_end;     ///< [days] the pass may end then, not only go on; empty: on all
  int lag = 0;                   ///< whole days after the end of the pass before
  double drying_mm = 0.0;        ///< that evaporate since the end of the pass before
  int begins_before = 0;         ///< first worked before this day; 0: no limit
  std::optional<int> free_from;  ///< may be left out, for nothing, from this day on
  [[nodiscard]] double draft_on(std::size_t open_day) const { return draft.empty() ? 1.0 : draft[open_day]; }
};

/// The passes of a recipe from its first step, or of a fall-back from the day on which it takes over.
struct Chain {
  std::vector<Opening> passes;
  int begins = 0;                     ///< first day of work
  std::vector<double> evaporated_mm;  ///< [day] most that can have evaporated before that morning
  double income_cents = 0.0;          ///< the most besides, as a positive number: a water lease
};

/// A fall-back that takes over with at least so much of its method's own baling done; its bales are hauled
/// first.
struct FallBack {
  Chain chain;
  double done_share = 0.0;
  std::optional<double> begun_cents;  ///< the least money of a baling begun by now; none: none has
};

struct Openings {
  std::vector<Chain> own;      ///< by which steps are done and which passed over
  std::size_t key_passes = 0;  ///< passes of own up to the step that the fall-back hangs on
  std::vector<FallBack> fall_backs;
};

/// The recipe must be possible on the field.
Openings openings_of(const dispatch::Table& table, std::size_t field, std::size_t year, std::size_t recipe);
/// Those of every recipe [recipe]; none: not possible on the field.
std::vector<std::optional<Openings>> openings_of_all(const dispatch::Table& table, std::size_t field,
                                                     std::size_t year);

}  // namespace aftercut::planner
