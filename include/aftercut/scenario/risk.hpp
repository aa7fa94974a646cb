#pragma once
// How sure each field is against what was wanted, in the years that the search played and in the others; and,
// where the wanted chance binds, what stands in the way of fields that stay below it (docs/risk.md).

#include <vector>

#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/plan/risk.hpp"

namespace aftercut::scenario {

struct RiskInput {
  const dispatch::Table* table = nullptr;
  const plan::Decision* decision = nullptr;
  const std::vector<plan::YearRun>* runs = nullptr;  ///< of every weather year
  std::vector<std::size_t> searched, shown;          ///< places in `runs`
  int threads = 1;
};

plan::RiskTold risk_told(const RiskInput& input);

/// Of the fields below their wish in the shown years: the field alone with every method, the plan with more
/// of each thing, with the field first, with its other method.
std::vector<plan::InTheWay> in_the_way(const RiskInput& input, const std::vector<plan::Wish>& wishes);

/// The same to be read, a sentence each.
std::vector<std::string> way_words(const farm::Farm& farm, const plan::RiskTold& risk,
                                   const plan::InTheWay& way);

}  // namespace aftercut::scenario
