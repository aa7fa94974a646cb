#pragma once
// Slip and pull of bias-ply tyres by the strength of the ground. Source: D497.7 clause 3 (recalled).
// Flooded or just-drained clay lies outside: the passes there are held back by the limits of the ground
// instead.

#include <optional>

#include "aftercut/core/quantity.hpp"
#include "aftercut/machinery/machines.hpp"

namespace aftercut::machinery {

struct Tyre {
  KiloPascal cone_index;          ///< CI of the ground
  Metre width, diameter;          ///< b, d
  KiloNewton load;                ///< W on the wheel
  double deflection_share = 0.2;  ///< delta / h, of the section height
};
/// Bn = (CI b d / W) (1 + 5 delta / h) / (1 + 3 b / d).
double mobility_number(const Tyre& tyre);

/// A wheel at this mobility number and slip (0 to 1); forces as shares of the load on it.
struct Traction {
  double gross = 0.0;       ///< 0.88 (1 - e^(-0.1 Bn)) (1 - e^(-7.5 s)) + 0.04
  double resistance = 0.0;  ///< 1 / Bn + 0.04 + 0.5 s / sqrt(Bn)
  double net = 0.0;         ///< gross - resistance
  double efficiency = 0.0;  ///< (1 - s) net / gross
};
Traction traction(double mobility_number, double slip);

/// The least slip at which the net pull is this share of the load on the driven wheels, to 1e-6. Nothing
/// where no slip up to 50 % gives it: the tractor spins.
std::optional<double> slip_for(double mobility_number, double pull_share);

/// Usual mobility number of the ground; two recollections for tilled ground (25 and 40) differ, their middle
/// is taken. Source: D497.7 clause 3 (recalled)
double usual_mobility_number(Ground ground);

/// Share of the tractor's weight on driven wheels at work. Source: DrivenWeight (assumed); tracks: nothing,
/// the equations are of tyres.
std::optional<double> driven_weight_share(Drive drive);
/// Weight of a tractor ready for field work, by its power. Source: TractorWeight (assumed)
KiloNewton usual_weight(KiloWatt pto_power);

}  // namespace aftercut::machinery
