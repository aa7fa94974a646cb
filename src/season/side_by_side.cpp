// Fields lived side by side: their numbers laid lane by lane, the day loop inside.

#include <algorithm>
#include <array>

#include "aftercut/core/require.hpp"
#include "aftercut/season/field_year.hpp"
#include "live_day.hpp"

namespace aftercut::season {
namespace {

using DriversOfLanes = std::array<const YearDrivers*, lane_count>;

/// One number of each lane's year.
Lanes on_day(const DriversOfLanes& drivers, const std::vector<double> YearDrivers::*series, int day) {
  const auto d = static_cast<std::size_t>(day);
  const auto lane = [&](std::size_t l) { return (drivers[l]->*series)[d]; };
  return {Lanes::Pair{lane(0), lane(1)}, Lanes::Pair{lane(2), lane(3)}};
}

SkyOf<Lanes> sky_of(const DriversOfLanes& drivers, int day) {
  return {.rain_mm = on_day(drivers, &YearDrivers::rain_mm, day),
          .et0_mm = on_day(drivers, &YearDrivers::et0_mm, day),
          .air_c = on_day(drivers, &YearDrivers::air_c, day),
          .equilibrium_db = on_day(drivers, &YearDrivers::equilibrium_db, day),
          .straw_wetting_mm = on_day(drivers, &YearDrivers::straw_wetting_mm, day),
          .air_factor = on_day(drivers, &YearDrivers::air_factor, day)};
}

/// How many of the fields come next.
std::size_t next_few(std::size_t from, std::size_t count) { return std::min(lane_count, count - from); }

}  // namespace

/// Up to `lane_count` fields that are at the same day, as lanes of the same numbers.
class SideBySide {
 public:
  explicit SideBySide(std::span<FieldYear* const> fields) : fields_{fields}, day_{fields.front()->day_} {
    std::array<FieldOf<double>, lane_count> places;
    std::array<const FieldOf<double>*, lane_count> place_of{};
    std::array<const Life*, lane_count> life_of{};
    for (std::size_t l = 0; l < lane_count; ++l) {
      const FieldYear& f = *fields[std::min(l, fields.size() - 1)];
      require(f.day_ == day_ && f.farm_ == fields.front()->farm_,
              "fields that live side by side are of one farm and at the same day");
      places[l] = {f.ground_, f.rut_depth_mm_};
      place_of[l] = &places[l];
      life_of[l] = &f.life_;
      drivers_[l] = f.drivers_;
      drained_.set(l, f.drained());
    }
    lay_side_by_side<FieldOf>(place_of, place_);
    lay_side_by_side<LifeOf>(life_of, life_);
  }

  void live(int until) {
    const Rates& rates = drivers_.front()->rates;
    for (; day_ < until; ++day_) live_day<Lanes>(life_, place_, rates, sky_of(drivers_, day_), 0.0, drained_);
  }

  void put_back() const {
    std::array<Life*, lane_count> lives{};
    for (std::size_t l = 0; l < fields_.size(); ++l) lives[l] = &fields_[l]->life_;
    lay_one_by_one<LifeOf>(life_, lives);
    for (FieldYear* f : fields_) {
      f->day_ = day_ - 1;
      f->day_is_over();
    }
  }

  /// The first morning after `fields` are at, at most `day`, on which one of them changes by itself: its
  /// water is let off, a combine drives on it, or its straw has been laid.
  static int next_change(std::span<FieldYear* const> fields, int day) {
    const int now = fields.front()->day_;
    for (const FieldYear* f : fields)
      for (const int change : {f->drain_day_, f->harvest_day_, f->harvest_day_ + 1})
        if (change > now) day = std::min(day, change);
    return day;
  }

 private:
  std::span<FieldYear* const> fields_;
  int day_;
  DriversOfLanes drivers_{};
  Mask<Lanes> drained_{};
  FieldOf<Lanes> place_;
  LifeOf<Lanes> life_;
};

void live_until(std::span<FieldYear* const> fields, int day) {
  for (std::size_t from = 0; from < fields.size(); from += lane_count) {
    const auto few = fields.subspan(from, next_few(from, fields.size()));
    while (few.front()->day() < day) {
      SideBySide lanes{few};
      lanes.live(SideBySide::next_change(few, day));
      lanes.put_back();
    }
  }
}

}  // namespace aftercut::season
