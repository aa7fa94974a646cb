#pragma once
// US customary measures that several rooms read and show, in SI. Source: NIST811 (recalled); exact by
// definition.

namespace aftercut {

inline constexpr double ha_per_acre = 0.40468564224;  ///< international acre
inline constexpr double kg_per_lb = 0.45359237;       ///< avoirdupois pound
inline constexpr double kg_per_short_ton = 2000.0 * kg_per_lb;
inline constexpr double m_per_ft = 0.3048;          ///< international foot
inline constexpr double km_per_mile = 1.609344;     ///< international mile
inline constexpr double kw_per_hp = 0.74569987158;  ///< mechanical horsepower
inline constexpr double l_per_gal = 3.785411784;    ///< US gallon

}  // namespace aftercut
