#pragma once
// What was written down and is taken as a fact, but looks odd: to be told, so that a wrong figure is
// corrected.

#include <string>
#include <vector>

#include "aftercut/farm/so_far.hpp"

namespace aftercut::farm {

/// Area written down for one pass beyond the field's, from which it is told. Source: PassBeyondField
/// (assumed)
inline constexpr double told_beyond_share = 0.05;

struct Doubt {
  enum class What {
    area_beyond,   ///< the parts of one pass come to clearly more than the field
    ruled_out,     ///< work that only methods have that the owner has ruled out on the field
    bales_beyond,  ///< more bales were hauled than lay on the field
    not_baled,     ///< bales were counted or hauled, but no baling is written down on the field
  };
  What what = What::area_beyond;
  std::size_t field = 0;
  int operation = 0;
  std::vector<int> entries;               ///< of the journal, in order of day and number
  double written_ha = 0.0;                ///< of the pass, where its area is in doubt
  std::vector<std::string> methods = {};  ///< ids of those ruled out, in the book's order
  friend bool operator==(const Doubt&, const Doubt&) = default;
};

}  // namespace aftercut::farm
