#pragma once
// Chances that were said, held against what happened: in classes, and by the Brier score beside
// climatology and what was said at the start.
// Fields of one winter share its weather; so intervals come from drawing whole winters with replacement.

#include <cstdint>
#include <vector>

#include "aftercut/plan/hindcast.hpp"

namespace aftercut::review {

/// How intervals are drawn. Source: HindcastIntervals (assumed)
struct Redraws {
  std::uint64_t seed = 0;
  int count = 2000;
  double covers = 0.9;  ///< of an interval, both tails alike
};

/// The four classes: below 0.25, 0.5, 0.75, and the rest; empty ones too. Where all winters of a class agree
/// (all happened, or none), redrawing them shows no spread: the interval is then the exact one of so many
/// independent trials as there are winters in the class.
std::vector<plan::ChanceClass> classes_of(const std::vector<plan::SaidChance>& said, const Redraws& redraws);

/// At least one chance. Source: Brier1950 (recalled)
/// Climatology is as it was said: it is not worked out anew from the winters drawn.
plan::BrierScores brier_scores(const std::vector<plan::SaidChance>& said, const Redraws& redraws);

}  // namespace aftercut::review
