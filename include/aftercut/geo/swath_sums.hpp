#pragma once
// What straight passes on a field add up to: the figures of swaths.hpp without the geometry behind them.

namespace aftercut::geo {

/// What the passes of one heading come to.
struct SwathSums {
  double headland_m = 0.0;  ///< rounds along the edge
  int corners = 0;          ///< of the rounds, 45 degrees or sharper
  double interior_m = 0.0;  ///< all passes together
  int passes = 0;
  int blocks = 0;            ///< groups of passes that lie side by side
  int turns = 0;             ///< from a pass to its neighbour
  double staggered_m = 0.0;  ///< driven at turns because neighbouring passes end at different heights
  double between_blocks_m = 0.0;
};

}  // namespace aftercut::geo
