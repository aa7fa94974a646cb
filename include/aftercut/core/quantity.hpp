#pragma once
// Numbers that carry their unit in their type: a yield cannot be passed where a depth is wanted.
// Products of different units are named functions at the place that needs them; inside a formula use value().

#include <compare>
#include <numbers>

namespace aftercut {

/// A double with a unit. `Unit` is a tag only. Comparison and sums work within one unit.
template <class Unit>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double v) : v_{v} {}
  /// The number in the unit that the type names.
  [[nodiscard]] constexpr double value() const { return v_; }
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity{a.v_ + b.v_}; }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity{a.v_ - b.v_}; }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity{k * a.v_}; }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity{k * a.v_}; }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity{a.v_ / k}; }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.v_ / b.v_; }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  double v_ = 0.0;
};

using Hectare = Quantity<struct HectareUnit>;                      ///< ha
using Metre = Quantity<struct MetreUnit>;                          ///< m
using Millimetre = Quantity<struct MillimetreUnit>;                ///< mm of water, depth
using KgPerHa = Quantity<struct KgPerHaUnit>;                      ///< kg/ha, oven-dry unless said otherwise
using Kilogram = Quantity<struct KilogramUnit>;                    ///< kg
using TonnePerHour = Quantity<struct TonnePerHourUnit>;            ///< t/h
using Celsius = Quantity<struct CelsiusUnit>;                      ///< degrees Celsius
using KiloPascal = Quantity<struct KiloPascalUnit>;                ///< kPa
using KiloNewton = Quantity<struct KiloNewtonUnit>;                ///< kN
using KiloWatt = Quantity<struct KiloWattUnit>;                    ///< kW
using Fraction = Quantity<struct FractionUnit>;                    ///< 0 to 1
using Hours = Quantity<struct HoursUnit>;                          ///< h
using KmPerHour = Quantity<struct KmPerHourUnit>;                  ///< km/h
using MetrePerSecond = Quantity<struct MetrePerSecondUnit>;        ///< m/s
using HaPerHour = Quantity<struct HaPerHourUnit>;                  ///< ha/h
using Litre = Quantity<struct LitreUnit>;                          ///< L
using LitrePerHour = Quantity<struct LitrePerHourUnit>;            ///< L/h
using LitrePerHa = Quantity<struct LitrePerHaUnit>;                ///< L/ha
using CubicMetre = Quantity<struct CubicMetreUnit>;                ///< m3
using CubicMetrePerDay = Quantity<struct CubicMetrePerDayUnit>;    ///< m3/d
using MegaJoulePerM2Day = Quantity<struct MegaJoulePerM2DayUnit>;  ///< MJ m-2 d-1
using Degree = Quantity<struct DegreeUnit>;                        ///< angle, degrees
using Money = Quantity<struct MoneyUnit>;                          ///< the farm's currency

inline constexpr double m3_per_mm_ha = 10.0;  ///< water: 0.001 m over 10,000 m2
inline constexpr double radians_per_degree = std::numbers::pi / 180.0;

}  // namespace aftercut
