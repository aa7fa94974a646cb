#pragma once
// The least cost of one chain of passes by itself, when every day of every pass has its price: an exact
// dynamic programme over days, whole days of work and one remainder.

#include <functional>
#include <vector>

#include "aftercut/planner/openings.hpp"

namespace aftercut::planner {

/// What the passes of a chain cost: one entry for each pass, in its order.
struct PricedPass {
  double area_ha = 0.0;  ///< 0: nothing is driven
  double most_ha_a_day = 0.0;
  std::vector<double> cents_per_ha;  ///< [open day]; infinite where nobody can come
};

/// What a seedbed costs by the day on which its last pass ends [day], never falling; and what none costs.
struct Outcome {
  std::vector<double> cents;
  double never_cents = 0.0;
};

/// Hectares of a pass on a day.
struct Piece {
  std::size_t pass = 0;
  std::size_t open_day = 0;  ///< index into Opening::days
  double hectares = 0.0;
};

struct ChainCost {
  double cents = 0.0;
  std::vector<Piece> pieces;  ///< filled when asked for
};

/// Least cost over every choice of days, in floating point: exact but for rounding. `chain` and `passes` have
/// the same length.
ChainCost least_cost(const Chain& chain, const std::vector<PricedPass>& passes, const Outcome& outcome,
                     bool with_pieces);

}  // namespace aftercut::planner
