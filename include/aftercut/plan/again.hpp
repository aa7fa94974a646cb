#pragma once
// A plan made again in the middle of a season, against the one that stood: what moved, what it gains, what
// did not move because it would have gained too little, and the days of fields that keep their method.

#include <optional>
#include <vector>

#include "aftercut/plan/decision.hpp"

namespace aftercut::plan {

/// A field whose method the search would change.
struct Move {
  int field = 0;
  int from = none, to = none;   ///< methods; `from` as the plan that stood had it
  std::int64_t gain_cents = 0;  ///< of the whole farm in the mean year searched, against going back on it
  bool needed = false;          ///< without it a field falls short of its wanted chance, whatever it gains
  bool made = false;            ///< false: it gains less than the farm asks for
  friend bool operator==(const Move&, const Move&) = default;
};

/// A typical day under the plan that stood and under this one: the middle of the shown years; none: in most
/// of them it does not come.
struct StoodAndNow {
  std::optional<int> stood, now;
  friend bool operator==(const StoodAndNow&, const StoodAndNow&) = default;
};

enum class OrderMoved { neither, autumn, spring };

/// A field that keeps its method but not its days.
struct DayMove {
  int field = 0;
  StoodAndNow first;  ///< first day of its next work
  StoodAndNow ready;
  OrderMoved order = OrderMoved::neither;  ///< its place in that order moved the same way
  /// Fields whose work with the same implement comes before its own now and did not (its day moved back), or
  /// did and no longer does (its day moved forward), in more than half of the shown years.
  std::vector<int> before;
  friend bool operator==(const DayMove&, const DayMove&) = default;
};
/// Days by which a typical day has to move to be told. Source: DayMoves (assumed)
inline constexpr int day_move_told = 3;

/// Which way it moves: -1 to an earlier day, 1 to a later one or to none, 0 by less than is told.
inline int way_of(const StoodAndNow& day) {
  if (!day.stood || !day.now) return (day.stood ? 1 : 0) - (day.now ? 1 : 0);
  const int days = *day.now - *day.stood;
  return days >= day_move_told ? 1 : days <= -day_move_told ? -1 : 0;
}

struct Again {
  Decision stood;  ///< as far as it can still be done
  std::vector<Move>
      barred;               ///< methods of the plan that stood that can no longer be done, and what is played
  std::vector<Move> moves;  ///< by field
  Move autumn_order, spring_order;   ///< field none
  std::int64_t stood_cents = 0;      ///< mean cost to come of the plan that stood, out of pocket
  std::vector<double> stood_chance;  ///< [field] of a ready seedbed in time under it, shown years
  double asked_per_ha = 0.0;         ///< gain asked for a change, money a hectare
  std::vector<DayMove> days;         ///< by field; those where first or ready day moves enough
};

}  // namespace aftercut::plan
