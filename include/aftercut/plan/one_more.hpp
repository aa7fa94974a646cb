#pragma once
// What a little more of a machine, a person or a limit would save, as values.

#include <string>
#include <vector>

namespace aftercut::plan {

/// More of a thing in one week.
struct MoreInWeek {
  int first_day = 0;   ///< season day
  double more = 0.0;   ///< in the thing's unit
  double worth = 0.0;  ///< money a year that it saves; below zero: it costs
  double error = 0.0;  ///< standard error, over the plans tried
};

/// A tenth more of a thing all season.
struct MoreOf {
  std::string
      kind;        ///< operator, tractor, implement, burn_day_area, burn_season_area, canal_flow, hired_days
  std::string id;  ///< of a machine or person; else empty
  std::string unit;  ///< "h", "ha", "m3/s", "day"
  double more = 0.0;
  double worth = 0.0;
  double error = 0.0;
  std::vector<MoreInWeek> weeks;  ///< where the season's worth can be told from nothing
  /// More than two standard errors and a unit of money.
  [[nodiscard]] bool told() const { return worth > 2.0 * error && worth >= 1.0; }
};

struct OneMore {
  int plans = 0;  ///< the plan and its neighbours, over which worths are means
  std::vector<MoreOf> things;
};

}  // namespace aftercut::plan
