#pragma once
// How much has been burned in a year, today and in all, against what the farm's burn rules cap.

#include "aftercut/burn/rules.hpp"

namespace aftercut::dispatch {

class BurnedArea {
 public:
  BurnedArea(const burn::Limits& limits, double farm_area_ha) : limits_{limits}, farm_ha_{farm_area_ha} {}

  void start_day() { today_ha_ = 0.0; }
  void add(double area_ha) {
    today_ha_ += area_ha;
    in_all_ha_ += area_ha;
  }
  /// A whole field of this area stays within the caps of the day and of the season; no cap, no limit.
  [[nodiscard]] bool leaves_room_for(double area_ha) const {
    if (limits_.daily_area_ha && today_ha_ + area_ha > *limits_.daily_area_ha) return false;
    return !limits_.season_share || in_all_ha_ + area_ha <= *limits_.season_share * farm_ha_;
  }

 private:
  const burn::Limits& limits_;
  double farm_ha_;
  double today_ha_ = 0.0, in_all_ha_ = 0.0;
};

}  // namespace aftercut::dispatch
