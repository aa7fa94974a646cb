#pragma once
// A plan made again after changes of the farm, beside the plan that stood: a first answer from a short
// search.

#include <vector>

#include "aftercut/plan/what_if.hpp"

namespace aftercut::plan {

/// Chance of a field's seedbed by its planting date; none where nothing is due.
struct ChanceShift {
  int field = 0;
  double before = 0.0, kept = 0.0, after = 0.0;
};

struct Replanned {
  WholeFarm before;  ///< the plan that stood, on the farm as it was
  WholeFarm kept;    ///< its decision under the changes
  WholeFarm after;   ///< planned again
  Decision decision;
  std::vector<MethodChange> replaced;  ///< methods that the changes bar, and what is played when kept
  std::vector<MethodChange> changes;   ///< before to after
  std::vector<ChanceShift> chances;    ///< every field whose seedbed is due under the changes
};

}  // namespace aftercut::plan
