#pragma once
// Why nothing was done on a field on a day on which a step of its method was still to come.

#include <array>
#include <cstddef>

namespace aftercut::plan {

/// The first of these that holds, in their order.
enum class WaitsFor {
  dates,       ///< its own first day, or the days that the step before it asks for
  water_held,  ///< water stands behind the boards, or these are not due out
  ruts,        ///< ruts bar it
  canal,       ///< no canal water, or not enough of it
  pond,        ///< too little water stands to roll in
  wet_ground,  ///< the ground cannot be worked or does not carry it
  wet_straw,
  rain,         ///< that day
  drying,       ///< since the pass before or since the water went off
  hard_ground,  ///< the seedbed is too dry, rain is waited for
  soft_road,    ///< the bales cannot leave
  burn_day,     ///< not called, or not open to this field
  nobody        ///< no machine, person, hours or hired outfit left
};
struct WaitWord {
  const char* key;    ///< in outputs
  const char* words;  ///< short
};
inline constexpr std::array<WaitWord, 13> wait_words{{{"dates", "not before its date"},
                                                      {"water_held", "water held on the field"},
                                                      {"ruts", "ruts"},
                                                      {"canal", "no canal water"},
                                                      {"pond", "too little water to roll in"},
                                                      {"wet_ground", "wet ground"},
                                                      {"wet_straw", "straw not dry"},
                                                      {"rain", "rain"},
                                                      {"drying", "ground still drying"},
                                                      {"hard_ground", "ground too dry and hard"},
                                                      {"soft_road", "soft road"},
                                                      {"burn_day", "no burn day"},
                                                      {"nobody", "no machine, person or hours"}}};
/// [cause] days.
using WaitDays = std::array<int, wait_words.size()>;

struct Waited {
  int field = 0;
  int day = 0;        ///< season day
  int operation = 0;  ///< that would have been next
  WaitsFor what = WaitsFor::dates;
  friend bool operator==(const Waited&, const Waited&) = default;
};

}  // namespace aftercut::plan
