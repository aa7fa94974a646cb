#pragma once
// Canal water of one day: who asks, how much, and what the flow gives in the order of the lists.

#include <vector>

#include "field_replay.hpp"

namespace aftercut::audit {

struct Ask {
  int field = 0;
  bool fill = false;  ///< false: keeping up
  double need_m3 = 0.0;
};
/// The flow of the day [m3]; 0 outside the supply's dates.
double flow_of(const farm::Farm& farm, int day);
/// Fields that ask today, first served first.
std::vector<Ask> asks(const Facts& facts, const plan::Decision& decision,
                      const std::vector<FieldReplay>& fields, int day);

struct Watered {
  std::vector<FieldReplay> fields;
  Findings findings;
};
/// The stated water of the day is checked and let in.
Watered let_water(const Facts& facts, const plan::Decision& decision, std::vector<FieldReplay> fields,
                  const std::vector<plan::WaterIn>& rows, int year, int day);

}  // namespace aftercut::audit
