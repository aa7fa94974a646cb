#pragma once
// Watches straw and seedbed of one field of one year, a morning a week (docs/rules-of-work.md, "Winter").
// Internal to the room.

#include <vector>

#include "aftercut/plan/winter.hpp"
#include "aftercut/season/field_year.hpp"

namespace aftercut::dispatch {

class WinterWatch {
 public:
  /// Not `open`: looks at nothing and sees nothing.
  WinterWatch(const farm::Farm& farm, const farm::Field& field, bool open);

  /// Every morning on which the field may be worked.
  void morning(const season::FieldYear& sim);
  /// After the day was lived; a field that is ready is lived on, on a copy and by rain alone.
  void evening(const season::FieldYear& sim, int ready_day);

  [[nodiscard]] const std::vector<plan::WinterMorning>& seen() const { return seen_; }

 private:
  const soil::Profile* soil_;
  int next_ = 0, last_ = 0;  // morning to look at; the last one that there is
  bool open_ = false;
  std::vector<plan::WinterMorning> seen_;
};

}  // namespace aftercut::dispatch
