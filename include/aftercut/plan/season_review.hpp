#pragma once
// A season looked back on: what was planned beside what was done, which figures of the farm were off, and
// what they could be next year. Values; nothing is applied by itself.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"

namespace aftercut::plan {

/// One kind of work over the whole farm.
struct WorkSum {
  double ha = 0.0, hours = 0.0, fuel_l = 0.0, cost = 0.0;  ///< cost out of pocket, money
  double straw_t = 0.0;                                    ///< baled, as sold
  friend bool operator==(const WorkSum&, const WorkSum&) = default;
};
inline void add(WorkSum& sum, const WorkSum& more, double times = 1.0) {
  sum.ha += times * more.ha;
  sum.hours += times * more.hours;
  sum.fuel_l += times * more.fuel_l;
  sum.cost += times * more.cost;
  sum.straw_t += times * more.straw_t;
}
struct WorkReview {
  std::string operation;  ///< id
  WorkSum planned;        ///< mean over the plan's weather years, up to the day
  WorkSum done;
  int hours_missing = 0;  ///< entries without hours: taken at the rate of the farm's figures
};

/// How fast an implement went against what farm.json makes of it.
struct RateReview {
  std::string implement;  ///< id
  int entries = 0;        ///< with hours and area
  double ha = 0.0;
  double hours = 0.0, expected_hours = 0.0;
  double times = 1.0;   ///< hours over those expected, mean as logarithms
  double spread = 0.0;  ///< standard error of that mean, as a logarithm
  std::string key;      ///< of farm.json: "speed" [km/h], "area_per_day" [ha/day] or "throughput" [t/h]
  double now = 0.0;
  std::optional<double> proposed;  ///< none: too few entries, or as near as they can tell
};

struct YieldReview {
  std::string field;
  double expected_kg_per_ha = 0.0, found_kg_per_ha = 0.0;
};

/// A field's season, as it goes into the next one.
struct FieldReview {
  std::string field;
  std::string planned_method, method;  ///< ids; method: whose steps were done, empty: none
  std::optional<Date> ready;
  double chance_first = 0.0;          ///< of the first plan
  double straw_left_kg_per_ha = 0.0;  ///< on top and in the ground, now
  double planned_straw_left_kg_per_ha = 0.0;
  bool burned = false;
};

struct SeasonReview {
  Date from, until;              ///< the plan's first day, the day of the review
  std::vector<WorkReview> work;  ///< by operation, in the book's order; those planned or done
  std::vector<RateReview> rates;
  std::vector<YieldReview> yields;
  std::vector<FieldReview> fields;
  double wet_days = 0.0,
         planned_wet_days = 0.0;  ///< on which no field that was cut could be worked; as planned: mean
  int days = 0;
};

}  // namespace aftercut::plan
