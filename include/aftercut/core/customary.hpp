#pragma once
// US customary measures that several rooms read and show, in SI. Source: NIST811 (recalled); exact by
// definition.

namespace aftercut {

inline constexpr double ha_per_acre = 0.40468564224;  ///< international acre
inline constexpr double kg_per_lb = 0.45359237;       ///< avoirdupois pound

}  // namespace aftercut
