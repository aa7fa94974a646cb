#pragma once
// A plan made again in the middle of a season, against the one that stood: what moved, what it gains, and
// what did not move because it would have gained too little.

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

struct Again {
  Decision stood;  ///< as far as it can still be done
  std::vector<Move>
      barred;               ///< methods of the plan that stood that can no longer be done, and what is played
  std::vector<Move> moves;  ///< by field
  Move autumn_order, spring_order;   ///< field none
  std::int64_t stood_cents = 0;      ///< mean cost to come of the plan that stood, out of pocket
  std::vector<double> stood_chance;  ///< [field] of a ready seedbed in time under it, shown years
  double asked_per_ha = 0.0;         ///< gain asked for a change, money a hectare
};

}  // namespace aftercut::plan
