#include "aftercut/machinery/traction.hpp"

#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::machinery {
namespace {

constexpr double most_slip = 0.5, slip_step = 1e-6;
constexpr double kg_per_kw = 75.0, kn_per_kg = 0.00980665;

}  // namespace

double mobility_number(const Tyre& t) {
  const double b = t.width.value(), d = t.diameter.value();
  require(b > 0.0 && d > 0.0 && t.load.value() > 0.0, "a tyre has a width, a diameter and a load above 0");
  return t.cone_index.value() * b * d / t.load.value() * (1.0 + 5.0 * t.deflection_share) /
         (1.0 + 3.0 * b / d);
}

Traction traction(double bn, double s) {
  require(bn > 0.0 && s >= 0.0 && s < 1.0, "traction needs a mobility number above 0 and a slip below 1");
  Traction t;
  t.gross = 0.88 * (1.0 - std::exp(-0.1 * bn)) * (1.0 - std::exp(-7.5 * s)) + 0.04;
  t.resistance = 1.0 / bn + 0.04 + 0.5 * s / std::sqrt(bn);
  t.net = t.gross - t.resistance;
  t.efficiency = (1.0 - s) * t.net / t.gross;
  return t;
}

std::optional<double> slip_for(double bn, double pull_share) {
  const auto net = [bn](double s) { return traction(bn, s).net; };
  double best = most_slip;  // net pull rises to here at most
  for (double s = 0.0; s <= most_slip; s += 0.005)
    if (net(s) > net(best)) best = s;
  if (net(best) < pull_share) return std::nullopt;
  double low = 0.0, high = best;
  if (net(low) >= pull_share) return low;
  while (high - low > slip_step) {
    const double middle = 0.5 * (low + high);
    (net(middle) >= pull_share ? high : low) = middle;
  }
  return high;
}

double usual_mobility_number(Ground ground) {
  switch (ground) {
    case Ground::firm:
      return 55.0;
    case Ground::tilled:
      return 32.5;
    case Ground::soft:
      return 17.5;
  }
  fail("unknown ground");
}

std::optional<double> driven_weight_share(Drive drive) {
  switch (drive) {
    case Drive::two_wheel:
      return 0.75;
    case Drive::front_assist:
    case Drive::four_wheel:
      return 1.0;
    case Drive::track:
      return std::nullopt;
  }
  fail("unknown drive");
}

KiloNewton usual_weight(KiloWatt pto_power) { return KiloNewton{pto_power.value() * kg_per_kw * kn_per_kg}; }

}  // namespace aftercut::machinery
