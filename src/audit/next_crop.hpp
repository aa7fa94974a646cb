#pragma once
// What a replayed field-year hands on to the next crop, worked out again, and the figures that the plan makes
// of all years.

#include <utility>
#include <vector>

#include "aftercut/plan/environment.hpp"
#include "aftercut/plan/next_crop.hpp"
#include "facts.hpp"
#include "findings.hpp"

namespace aftercut::audit {

struct Seen {
  plan::NextCrop found;
  std::vector<std::pair<int, double>> worked_in;                       ///< day, kg/ha
  int flood_so_far = 0;                                                ///< mornings in a row
  bool fire = false, chopped = false, rolled = false, disked = false;  ///< by late autumn
  bool spring = false, over = false;
};

Seen see_morning(Seen s, const season::FieldYear& life);
/// Spring tillage is about to begin.
Seen see_spring(Seen s, const season::FieldYear& life);
/// The operation has changed `before` into `after`.
Seen see_change(const Facts& facts, Seen s, const method::Operation& op, const season::FieldYear& before,
                const season::FieldYear& after);
/// After the day was lived.
Seen see_evening(const Facts& facts, int field, Seen s, const season::FieldYear& life, int ready_day);
/// Days between the ready day and the start of the crop: nothing is done on them.
Seen see_to_the_end(const Facts& facts, int field, Seen s, season::FieldYear life, int ready_day);

/// Straw on top of the field on the morning of `day` had nobody touched it [kg/ha].
double untouched_on_top(const Facts& facts, int field, const season::YearDrivers& drivers, int day);

Findings compare_next_crop(const Place& place, const plan::NextCrop& found, const plan::NextCrop& expected);

/// One year as the figures need it.
struct CropYear {
  plan::FieldRun run;
  double untouched_on_top = 0.0;
  bool shown = false;
};
Findings check_environment(const Facts& facts, const Place& place, int field, const plan::Environment& said,
                           const std::vector<CropYear>& years);

}  // namespace aftercut::audit
