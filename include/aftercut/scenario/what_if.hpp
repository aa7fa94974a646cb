#pragma once
// What if: the same farm under named changes, each planned afresh and each with the base plan kept.

#include <string>
#include <vector>

#include "aftercut/plan/what_if.hpp"
#include "aftercut/scenario/base_plan.hpp"

namespace aftercut::scenario {

/// A change of a farm. `problem` is what a plan made in the knowledge of it starts from; `kept` what happens
/// to a plan made without it (there the baler is still waited for, until the fall-back takes over).
struct ChangedFarm {
  std::string name, title, note;
  std::vector<farm::Setting> set;
  farm::Problem problem, kept;
};

/// dry-years, wet-years, no-baler, half-water, no-burn-area, straw-doubled.
std::vector<std::string> case_names();
/// The built-in case of that name. Throws when there is none.
ChangedFarm built_in_case(const farm::Problem& problem, const std::string& name);

/// A decision of one problem for another with the same fields: methods by their ids; where the other problem
/// bars one, its fall-back, else the method that costs the whole farm least.
struct Carried {
  plan::Decision decision;
  std::vector<plan::MethodChange> replaced;
};
Carried carried_over(const farm::Problem& from, const plan::Decision& decision, const farm::Problem& to,
                     const SearchOptions& options);

/// Fields whose method is another, by the methods' ids.
std::vector<plan::MethodChange> changes_of(const farm::Farm& from, const plan::Decision& base,
                                           const farm::Farm& to, const plan::Decision& now);

/// The base plan and every case. Cases have the fields of `problem`.
plan::WhatIf what_if(const farm::Problem& problem, const std::vector<ChangedFarm>& cases,
                     const SearchOptions& options);

}  // namespace aftercut::scenario
