#pragma once
// What one field of one weather year hands on to the next crop, the air and the birds, as the run saw it.
// Days count from the first morning on which the field may be worked to the morning on which its next crop
// starts: the planting date, or the day after it was ready where that is later; a field that stays unplanted,
// the day after its cut-off; a fallow one, the season's end.

namespace aftercut::plan {

struct NextCrop {
  bool burned_in_rows = false;           ///< its straw lay in windrows when it was burned
  double burned_moisture_percent = 0.0;  ///< of that straw, wet basis; 0: not burned
  double applied_early_kg_per_ha = 0.0;  ///< straw worked into the ground more than 30 days before the crop
  double applied_late_kg_per_ha = 0.0;   ///< and later
  double n_taken_up_kg_per_ha = 0.0;     ///< from the soil, by what rots the straw, until the crop starts
  double n_given_back_kg_per_ha = 0.0;   ///< to the soil, until then
  double n_held_kg_per_ha = 0.0;         ///< by what rots the straw, on that morning
  int spring_day = -1;  ///< of the first spring tillage; none done: the morning on which the crop starts
  double spring_on_top_kg_per_ha = 0.0, spring_in_ground_kg_per_ha = 0.0;  ///< straw that morning
  int flooded_days = 0;     ///< mornings with more than 10 mm on the field
  int bird_days = 0;        ///< mornings with water in which waterfowl feed
  int long_flood_end = -1;  ///< last morning of the last flood of more than 30 days; none: no such flood
  double waste_grain_kg_per_ha = 0.0;  ///< left in late autumn
  friend bool operator==(const NextCrop&, const NextCrop&) = default;
};

}  // namespace aftercut::plan
