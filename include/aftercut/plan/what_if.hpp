#pragma once
// A plan beside what would become of it under named changes of the farm, as values.

#include <string>
#include <vector>

#include "aftercut/farm/setting.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::plan {

/// What a planned set of years comes to: means over all its years, chances over the shown ones.
struct WholeFarm {
  std::int64_t cost_cents = 0;
  double cost_per_ha = 0.0;  ///< money
  double chance = 0.0;   ///< of a ready seedbed by planting, mean over the fields where one is due, by area
  int below_wanted = 0;  ///< fields under the wanted chance
  double baled_t = 0.0, burned_ha = 0.0, canal_m3 = 0.0;
};

/// A field's method in the base plan and in another; none: no method.
struct MethodChange {
  int field = 0;
  int from = none, to = none;
};

/// One change of the farm: planned afresh, and the base plan's decision played under it.
struct CaseResult {
  std::string name;   ///< short and fixed, also its folder: "no-baler", "set-1"
  std::string title;  ///< the change in words
  std::string note;   ///< why it changes nothing on this farm; else empty
  std::vector<farm::Setting> set;
  PlannedYears planned, kept;
  WholeFarm planned_figures, kept_figures;
  std::vector<MethodChange> changes;   ///< base to planned
  std::vector<MethodChange> replaced;  ///< methods of the base plan that the change bars, and what is played
};

struct WhatIf {
  PlannedYears base;
  WholeFarm base_figures;
  std::vector<CaseResult> cases;
};

}  // namespace aftercut::plan
