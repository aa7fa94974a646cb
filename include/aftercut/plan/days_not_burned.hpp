#pragma once
// Why a field that waits for its burn did not burn: its days counted by what held it up.

#include <array>

namespace aftercut::plan {

/// Days on which the burn was the field's next step, its dates had come and the calendar rows left the day
/// open, and the field did not burn; each counted once, by the first of these that holds.
struct DaysNotBurned {
  int not_called = 0;     ///< by the authority
  int too_wet = 0;        ///< straw or ground too wet, drying days not over, or the field rutted
  int out_of_limits = 0;  ///< wind, humidity or temperature
  int no_room = 0;        ///< no people, machine, hours or burn area left
  friend bool operator==(const DaysNotBurned&, const DaysNotBurned&) = default;
};

/// Every member with the key that it has in outputs, in their order.
struct NotBurnedPart {
  const char* key;
  int DaysNotBurned::*of;
};
inline constexpr std::array<NotBurnedPart, 4> not_burned_parts{
    {{"not_called", &DaysNotBurned::not_called},
     {"too_wet", &DaysNotBurned::too_wet},
     {"out_of_limits", &DaysNotBurned::out_of_limits},
     {"no_room", &DaysNotBurned::no_room}}};

}  // namespace aftercut::plan
