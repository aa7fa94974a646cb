#pragma once
// Watches one field of one year for what it hands on to the next crop, the air and the birds
// (docs/rules-of-work.md, "Next crop"). Internal to the room.

#include <vector>

#include "aftercut/plan/next_crop.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::dispatch {

class NextCropWatch {
 public:
  /// Not `open`: looks at nothing and sees nothing.
  NextCropWatch(const farm::Farm& farm, const farm::Field& field, bool open)
      : farm_{&farm}, field_{&field}, open_{open} {}

  /// Every morning on which the field may be worked.
  void morning(const season::FieldYear& sim);
  /// Before the first stretch of spring tillage.
  void spring_begins(const season::FieldYear& sim);
  /// The field after an operation, or a share of it.
  season::FieldYear apply(season::FieldYear sim, const method::Operation& op, double share,
                          const straw::Tool& with);
  /// After the day was lived; `ready_day` as far as it is known. A field that is ready is lived on, on a copy
  /// and by rain alone, until its crop starts.
  void evening(const season::FieldYear& sim, int ready_day);

  [[nodiscard]] const plan::NextCrop& seen() const { return seen_; }

 private:
  struct Applied {
    int day = 0;
    double kg_per_ha = 0.0;
  };
  [[nodiscard]] int crop_starts(int ready_day) const;
  void close(const season::FieldYear& sim);

  const farm::Farm* farm_;
  const farm::Field* field_;
  plan::NextCrop seen_;
  std::vector<Applied> applied_;
  straw::GrainHandling handling_;
  int flood_days_in_a_row_ = 0;
  bool spring_begun_ = false, open_ = false;
};

}  // namespace aftercut::dispatch
