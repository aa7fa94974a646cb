#pragma once
// Which bales go to which stack place, and what is wrong with it.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/travel.hpp"
#include "aftercut/machinery/haul.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::plan {

/// One stack place with what goes there.
struct StackUse {
  std::size_t place = 0;  ///< index into Farm::stacking.places
  std::vector<machinery::Haul> hauls;
  double usual_bales = 0.0;  ///< of the middle year
  int bales = 0;             ///< of the year in ten with most
  std::optional<int> room;
  double volume_m3 = 0.0;             ///< of `bales`
  double loss_share = 0.0;            ///< dry matter that a year takes
  std::vector<std::string> troubles;  ///< too near, too big, too wet, with numbers
};

struct StackPlan {
  bool all_baled = false;  ///< no plan: as if all straw were baled
  std::vector<StackUse> stacks;
  std::vector<Spread> bales;                      ///< [field]
  std::vector<std::vector<farm::StackWay>> ways;  ///< [field][stack place]
  std::vector<int> without_room;                  ///< [field] bales that fit nowhere
  std::vector<std::string> troubles;
  std::vector<Caution> cautions;
};

}  // namespace aftercut::plan
