#pragma once
// Where bales are stacked, and what a stack has to keep to.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/quantity.hpp"
#include "aftercut/geo/shape.hpp"

namespace aftercut::farm {

enum class StackCover { none, half_open, closed };

/// A place for bales: a point, or the ground that the stack may stand on.
struct StackPlace {
  std::string id;
  geo::Shape shape;
  std::optional<int> most_bales;  ///< as entered; else by ground and height, else no limit
  StackCover cover = StackCover::none;
};

/// Distances are kept from the edge of the place. Sources differ: the stricter read figure is the default.
struct StackRules {
  Metre from_stack{30.5};        ///< Source: StackInsurer (read)
  Metre from_home{30.5};         ///< and schools. Source: StackInsurer (read)
  Metre from_road{30.5};         ///< Source: StackInsurer (read)
  Metre from_power_line{10.0};   ///< Source: UKfire (read)
  double most_block_m3 = 566.0;  ///< one stack without a lane. Source: StackFireCode (recalled)
  Metre most_height{3.6};        ///< four bales of 0.9 m. Source: StackHeight (assumed)
  double detour = 1.3;           ///< way driven over the straight distance. Source: StackDetour (assumed)
  /// Share of the dry matter that a year takes. Source: Blunk2003 (read): 40 to 60 % and 10 to 20 %
  double loss_uncovered = 0.5, loss_half_open = 0.15;
  double loss_closed = 0.0;  ///< no figure: a setting
};

struct Stacking {
  std::vector<StackPlace> places;  ///< by natural order of ids
  StackRules rules;
};

}  // namespace aftercut::farm
