#pragma once
// A plan made again after changes of the farm, beside the plan that stood: a first answer from a short
// search.

#include <string>
#include <vector>

#include "aftercut/plan/what_if.hpp"

namespace aftercut::plan {

/// Chance of a field's seedbed by its planting date; none where nothing is due.
struct ChanceShift {
  int field = 0;
  double before = 0.0, kept = 0.0, after = 0.0;
};

/// A field on which no method is open under the changes.
struct NoMethod {
  int field = 0;
  int fixed = none;                  ///< the method that it is fixed to; none: every method is barred
  std::vector<std::string> why_not;  ///< of the fixed one
};

struct Replanned {
  WholeFarm before;  ///< the plan that stood, on the farm as it was
  WholeFarm kept;    ///< its decision under the changes
  WholeFarm after;   ///< planned again
  Decision decision;
  std::vector<MethodChange> replaced;  ///< methods that the changes bar, and what is played when kept
  std::vector<MethodChange> changes;   ///< before to after
  std::vector<NoMethod> no_method;
  std::vector<ChanceShift> chances;  ///< every field whose seedbed is due under the changes
};

}  // namespace aftercut::plan
