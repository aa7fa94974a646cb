#pragma once
// How sure each field was wanted, how sure it is, and what stands in the way where it is less, as values
// (docs/risk.md). Counts are of years ready by the planting date.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/plan/waits.hpp"

namespace aftercut::plan {

/// A field that a seedbed is wanted on.
struct Wish {
  int field = 0;
  double chance = 0.0;  ///< wanted
  int searched = 0;     ///< years, of those that the search played
  int shown = 0;        ///< years, of the others
};

/// One operation, summed over the years that fail.
struct StepWaited {
  int operation = 0;
  WaitDays days{};
  [[nodiscard]] int all() const {
    int sum = 0;
    for (const int d : days) sum += d;
    return sum;
  }
};

/// The field by itself on the farm with one method, in the shown years.
struct AloneOnFarm {
  int method = -1;
  int ready = 0;
  int failed = 0;                 ///< years
  int days_looked_at = 0;         ///< before the planting date, of each year that failed
  int days_standing = 0;          ///< of those, on which the crop still stands
  std::vector<StepWaited> waits;  ///< the most days first
};

/// A machine, person or limit of which there is more.
struct MoreThing {
  std::string kind, id;  ///< as plan::MoreOf has them
  bool twice = false;    ///< as much again all season; else a tenth more
  int ready = 0;         ///< the field's years with it, methods and orders kept
  int brings = 0;        ///< fields below their wish that it brings there
};

/// The plan with one thing about the field changed.
struct OtherWay {
  int method = -1;
  int ready = 0;
  std::vector<int> falls_below;  ///< fields that have their wish in the plan and would not then
};

/// A field below its wish in the shown years, and what stands in the way.
struct InTheWay {
  int field = 0;
  int wanted = 0;  ///< years, of those shown
  int ready = 0;
  int own_method_alone = 0;  ///< years with the plan's method, alone on the farm
  AloneOnFarm alone;         ///< with the method that is best so
  /// Only where the plan's method could not alone and the best method could: with that one, in this plan.
  std::optional<OtherWay> other_method = {};
  /// The rest only where the plan's method could alone, so that something shared stands in the way.
  std::optional<MoreThing> more = {};   ///< the least that brings it there
  std::optional<MoreThing> most = {};   ///< where nothing does by itself: what helps most
  std::optional<int> all_twice = {};    ///< years with everything twice
  std::optional<OtherWay> first = {};   ///< first in both lists
  std::vector<std::string> words = {};  ///< the same, to be read
};

struct RiskTold {
  int search_years = 0, shown_years = 0;
  /// What a late day costs a hectare, mean over the fields that are due by their area; none: nothing.
  std::optional<double> late_per_ha_day = {};
  std::vector<Wish> wishes = {};  ///< fields with a seedbed due, in their order
  std::vector<InTheWay> in_the_way = {};
};

}  // namespace aftercut::plan
