#pragma once
// Chances of readiness that would have been said in past winters, beside what then happened, as values
// (docs/hindcast.md).

#include <optional>
#include <vector>

#include "aftercut/plan/decision.hpp"

namespace aftercut::plan {

/// One field in one winter on one date.
struct SaidChance {
  int winter = 0;            ///< the year in which its season starts
  int field = 0;             ///< one on which a seedbed is due
  double said = 0.0;         ///< share of the other winters in which it would be ready by its planting date,
                             ///< the weather before the date being this winter's own
  double climatology = 0.0;  ///< share of the other winters in which it was, each with its own decision
  double at_start = 0.0;     ///< what would be said on the season's first day, when nothing is known but the
                             ///< decision
  bool happened = false;     ///< ready by its planting date, this winter played in full
  int ready_day = none;      ///< season day on which it was, in time or not; none: it was not
  friend bool operator==(const SaidChance&, const SaidChance&) = default;
};

struct Interval {
  double low = 0.0, high = 0.0;
  friend bool operator==(const Interval&, const Interval&) = default;
};

/// Everything said from `from` to below `below`; the last class holds 1 too.
struct ChanceClass {
  double from = 0.0, below = 1.0;
  int field_winters = 0;
  int winters = 0;                   ///< distinct ones
  double said = 0.0;                 ///< mean; 0 for an empty class
  double happened = 0.0;             ///< share; 0 for an empty class
  std::optional<Interval> interval;  ///< of the share; none where fewer than two winters are in the class
  friend bool operator==(const ChanceClass&, const ChanceClass&) = default;
};

/// The score of another way to say chances, and how what was said does against it.
struct BrierBeside {
  double score = 0.0;
  std::optional<double> skill;       ///< 1 - said / score; none where the other never errs
  double difference = 0.0;           ///< said less score: below 0, what was said is better
  std::optional<Interval> interval;  ///< of the difference; none for a single winter
  friend bool operator==(const BrierBeside&, const BrierBeside&) = default;
};

/// Mean squares of chance less what happened (1 or 0): 0 is perfect, 0.25 is what even chances get.
struct BrierScores {
  double said = 0.0;
  BrierBeside climatology;
  BrierBeside at_start;  ///< what the weather since then adds
  friend bool operator==(const BrierScores&, const BrierScores&) = default;
};

struct HindcastDate {
  int day = 0;                   ///< season day; the weather before it is known
  std::vector<SaidChance> said;  ///< by winter, then field
  std::vector<ChanceClass> classes;
  BrierScores scores;
};

struct Hindcast {
  std::vector<int> winters;         ///< the years in which they start
  std::vector<Decision> decisions;  ///< [winter] found on the other winters, kept on every date
  std::vector<HindcastDate> dates;  ///< rising
};

}  // namespace aftercut::plan
