#pragma once
// The chosen method of a field against the next best possible one, in numbers: what it saves, in which parts,
// at which prices the two would cost the same, and whether they are a toss-up.

#include <optional>

#include "aftercut/scenario/outcomes.hpp"

namespace aftercut::scenario {

/// The possible method that costs the farm least beside the chosen one; none when no other is possible.
int next_method(const std::vector<plan::MethodOutcome>& methods, int chosen);

/// Field `field` with the chosen method of the decision against next_method(); none without one. What decides
/// and the earlier harvest are filled by deciders() and saves_if_cut_earlier().
std::optional<plan::NextBest> next_best(const farm::Farm& farm, const Outcomes& outcomes, std::size_t field,
                                        int chosen);

/// By the farm's margin, the standard error over years and the spreads entered for prices.
plan::TossUp toss_up(const farm::Farm& farm, const plan::NextBest& next, std::size_t field);

/// What makes most of the difference: at most three, the strongest first.
std::vector<plan::Decider> deciders(const farm::Farm& farm, const Outcomes& outcomes, std::size_t field,
                                    int chosen, const plan::NextBest& next);

/// A field that still stands, cut up to a week earlier (not before the as-of day).
struct CutEarlier {
  int days = 0;
  std::optional<std::int64_t>
      saves;  ///< as NextBest::saves; none: cut already, no next best, or not possible
};
/// [field] of the plan dispatched with each method and that one harvest moved; `next[f]` may be none.
std::vector<CutEarlier> saves_if_cut_earlier(const OutcomeInput& input, const std::vector<int>& next);

}  // namespace aftercut::scenario
