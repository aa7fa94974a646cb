#pragma once
// One plan on the years that it was chosen by, on those that it was not, and on invented ones, as values.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/plan/decision.hpp"

namespace aftercut::plan {

/// A mean over years and its standard error; no error for a single year.
struct MeanOfYears {
  double mean = 0.0;
  std::optional<double> error;
};

/// One plan played in a set of years. Shares are of the area of the fields on which a seedbed is due.
struct TrialSet {
  std::string name;        ///< short and fixed: "searched", "kept_apart", "invented"
  std::vector<int> years;  ///< labels; of invented years too
  MeanOfYears season_rain_mm;
  MeanOfYears cost;           ///< of the whole farm, out of pocket, money a year
  MeanOfYears straw_done;     ///< every step before spring done, none passed over; of all fields
  MeanOfYears seedbed_ready;  ///< by the planting date
  MeanOfYears planted;        ///< ready by the cut-off
};

struct Trial {
  Decision decision;  ///< the same in every set
  std::vector<TrialSet> sets;
  /// What the kept-apart years cost more than the searched ones; the error is of two independent means.
  MeanOfYears apart_less_searched;
  /// By how much a plan does better on the years that it was searched on than one that was searched on the
  /// others, money a year: searched both ways round, the difference taken year by year.
  MeanOfYears search_flatters;
  double invented_rain_spread_mm = 0.0, record_rain_spread_mm = 0.0;  ///< standard deviations
  std::string no_invented;                                            ///< why there are none; else empty
};

}  // namespace aftercut::plan
