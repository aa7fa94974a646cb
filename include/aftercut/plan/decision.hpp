#pragma once
// Room plan, lead header. Purpose: value types of a plan and of a year in which it is played; no behaviour
// but look-ups. Indices refer to the vectors of farm::Farm (fields, tractors, implements, operators) and
// method::Book.

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "aftercut/plan/days_not_burned.hpp"
#include "aftercut/plan/next_crop.hpp"
#include "aftercut/plan/waits.hpp"
#include "aftercut/plan/winter.hpp"

namespace aftercut::plan {

inline constexpr int none = -1;

/// First-stage decisions: they do not know the weather.
struct Decision {
  std::vector<int>
      method;  ///< [field] recipe index; none: every method is barred, the field is left as it is
  std::vector<int> autumn_order;  ///< fields, first served first, for steps of autumn and winter
  std::vector<int> spring_order;  ///< the same for the spring chain
  friend bool operator==(const Decision&, const Decision&) = default;
};

/// One stretch of work on one day by one outfit on one field.
struct Work {
  int field = 0;
  bool fell_back = false;  ///< the step belongs to the fall-back method
  int step = 0;            ///< index into the active recipe's steps (fall-back's if fell_back)
  int pass = 0;            ///< 0-based repeat of the step
  int operation = 0;
  int day = 0;                     ///< season day
  int start_min = 0, end_min = 0;  ///< minutes after midnight, standard time
  int tractor = none, implement = none;
  std::array<int, 4> crew{none, none, none, none};
  double area_ha = 0.0;  ///< of this stretch
  double fuel_l = 0.0;
  bool finishes = false;   ///< the pass is complete at its end
  bool stands_by = false;  ///< the crew waited for a burn call that did not come; nothing was done
  friend bool operator==(const Work&, const Work&) = default;
};

/// Canal water let into one field on one day.
struct WaterIn {
  int field = 0;
  int day = 0;
  double m3 = 0.0;
  friend bool operator==(const WaterIn&, const WaterIn&) = default;
};

/// Money of one field in one year, cents; incomes are negative. The out-of-pocket sum decides; the last two
/// stand beside it.
struct CostParts {
  std::int64_t fuel = 0, wages = 0, hire = 0, twine = 0, repair = 0, water = 0, fees = 0;
  std::int64_t late = 0, unplanted = 0;
  std::int64_t straw_income = 0, lease_income = 0;
  std::int64_t ownership = 0, own_labour = 0;
  [[nodiscard]] std::int64_t out_of_pocket() const {
    return fuel + wages + hire + twine + repair + water + fees + late + unplanted + straw_income +
           lease_income;
  }
  [[nodiscard]] std::int64_t full() const { return out_of_pocket() + ownership + own_labour; }
  friend bool operator==(const CostParts&, const CostParts&) = default;
};
CostParts operator+(const CostParts& a, const CostParts& b);
CostParts operator-(const CostParts& a, const CostParts& b);

/// Money of one field on one day.
struct Bill {
  int field = 0;
  int day = 0;  ///< season day
  CostParts parts;
  friend bool operator==(const Bill&, const Bill&) = default;
};

/// Every member of CostParts with the key that it has in outputs, in their order.
struct CostPart {
  const char* key;
  std::int64_t CostParts::*of;
};
inline constexpr std::array<CostPart, 13> cost_parts{{{"fuel", &CostParts::fuel},
                                                      {"wages", &CostParts::wages},
                                                      {"hire", &CostParts::hire},
                                                      {"twine", &CostParts::twine},
                                                      {"repair", &CostParts::repair},
                                                      {"water", &CostParts::water},
                                                      {"fees", &CostParts::fees},
                                                      {"late", &CostParts::late},
                                                      {"unplanted", &CostParts::unplanted},
                                                      {"straw_income", &CostParts::straw_income},
                                                      {"lease_income", &CostParts::lease_income},
                                                      {"ownership", &CostParts::ownership},
                                                      {"own_labour", &CostParts::own_labour}}};

enum class Status {
  ready,        ///< by its planting date
  late,         ///< after it, before the cut-off
  unplanted,    ///< not by the cut-off date
  nothing_due,  ///< fallow: no seedbed asked for
  no_method     ///< every method is barred
};

/// How one field fared in one year.
struct FieldRun {
  Status status = Status::unplanted;
  int ready_day = none;  ///< season day on which the last pass ended
  bool fell_back = false;
  int steps_passed_over = 0;  ///< given up because the season went on
  int finished_dry = 0;       ///< finishing passes that ended on too dry ground
  CostParts cost;
  std::int64_t machine_min = 0, labour_min = 0;
  double fuel_l = 0.0, water_m3 = 0.0;
  double straw_left_kg_per_ha =
      0.0;  ///< on top and worked in, the morning of the first spring pass; none done: at the season's end
  double baled_kg_per_ha = 0.0, burned_kg_per_ha = 0.0, decayed_kg_per_ha = 0.0;
  int straw_done_day = none;  ///< end of the last autumn step that was done
  int straw_over_day = none;  ///< evening on which no step before spring was left but boards out
  DaysNotBurned not_burned;   ///< while the method's burn was the next step
  NextCrop next_crop;         ///< filled when asked for
  friend bool operator==(const FieldRun&, const FieldRun&) = default;
};

/// One weather year played from first to last day.
struct YearRun {
  int year = 0;
  std::vector<Work> work;        ///< by day, then start, then field
  std::vector<WaterIn> water;    ///< by day, then field
  std::vector<FieldRun> fields;  ///< [field]
  std::vector<Bill> bills;       ///< what the fields' costs are made of, by day; kept only when asked for
  std::vector<std::vector<char>>
      workable;  ///< [field][day] the ground could be worked; kept only when asked for
  std::vector<std::vector<WinterMorning>> winter;  ///< [field][week]; kept only when asked for
  std::vector<Waited> waits;                       ///< by day, then field; kept only when asked for
  friend bool operator==(const YearRun&, const YearRun&) = default;
};

/// Work by day, start and field; water by day and field.
YearRun in_day_order(YearRun run);

}  // namespace aftercut::plan
