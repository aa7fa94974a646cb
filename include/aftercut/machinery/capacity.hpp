#pragma once
// Area and mass per hour, draft, power, fuel. Source: D497.7, EP496.3 (recalled; checked by read worked
// examples).

#include "aftercut/machinery/machines.hpp"

namespace aftercut::machinery {

HaPerHour field_capacity(KmPerHour speed, Metre width, Fraction efficiency);  ///< S W E / 10
/// The lesser of the area rate and what the throughput allows at this straw mass [kg/ha as handled].
HaPerHour capped_by_throughput(HaPerHour rate, std::optional<TonnePerHour> throughput, KgPerHa straw);

struct DraftInput {
  double a = 0.0, b = 0.0, c = 0.0;  ///< N, km/h
  double soil_factor = 1.0;          ///< F
  double width_or_tools = 0.0;       ///< m or count
  double depth_cm = 1.0;             ///< T; 1 for minor tools
  KmPerHour speed;
};
KiloNewton draft(const DraftInput& in);                    ///< D = F (A + B S + C S2) W T / 1000
KiloWatt drawbar_power(KiloNewton pull, KmPerHour speed);  ///< D S / 3.6
/// Drawbar power as a share of PTO power. Source: ArizonaMachinery (read).
Fraction traction_ratio(Drive drive, Ground ground);
KiloWatt rotary_power(const KindRow& row, Metre width, TonnePerHour feed);  ///< a + b W + c F

/// What an implement asks of a tractor at work, both at the PTO: to be pulled, and to be turned.
struct PowerParts {
  KiloWatt pulled, rotary;
};
PowerParts power_parts(const Implement& implement, Drive drive, Ground ground, SoilGroup soil, KgPerHa straw);
/// Both together [kW at the PTO].
KiloWatt power_needed(const Implement& implement, Drive drive, Ground ground, SoilGroup soil, KgPerHa straw);

/// Fuel at full throttle for power used X = used / rated: (0.22 X + 0.096) rated [L/h]. Source: Grisso2004
/// (form read, numbers recalled).
LitrePerHour fuel_rate(KiloWatt used, KiloWatt rated);
/// Older specific consumption 2.64 X + 3.91 - 0.203 sqrt(738 X + 173) [L/kWh]. Source: D497.5 (recalled; US
/// twin read).
double specific_fuel_l_per_kwh(double x);
/// Fuel really used may differ by this share either way. Source: A3-27 (read)
inline constexpr double fuel_band = 0.35;
LitrePerHour average_fuel(KiloWatt rated);  ///< 0.223 rated. Source: Grisso EP496.3 6.3.2.1 (read)

}  // namespace aftercut::machinery
