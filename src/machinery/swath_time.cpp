#include "aftercut/machinery/swath_time.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "aftercut/core/require.hpp"
#include "aftercut/geo/swaths.hpp"

namespace aftercut::machinery {
namespace {

using std::numbers::pi;
constexpr double metres_per_km = 1000.0, seconds_per_hour = 3600.0, square_metres_per_ha = 1e4;
constexpr std::size_t edges_tried = 8;
constexpr double first_step_deg = 8.0, last_step_deg = 0.5;

Hours driven(double metres, KmPerHour speed) { return Hours{metres / (speed.value() * metres_per_km)}; }

struct OneTurn {
  double metres = 0.0;
  Hours hours;
};

OneTurn one_turn(const Turning& t, Metre spacing) {
  const bool wide = spacing >= 2.0 * t.radius;
  const Metre loop = wide ? half_circle_turn(t.radius, spacing) : bulb_turn(t.radius, spacing);
  const OneTurn around{loop.value(), driven(loop.value(), t.speed)};
  if (wide || t.manner == Turn::loop) return around;
  const double back = fishtail_turn(t.radius, spacing).value();
  const OneTurn fishtail{back, driven(back, t.speed) + Hours{2.0 * t.direction_change_s / seconds_per_hour}};
  return t.manner == Turn::fishtail || fishtail.hours < around.hours ? fishtail : around;
}

}  // namespace

Metre half_circle_turn(Metre radius, Metre spacing) {
  require(radius.value() > 0.0 && spacing >= 2.0 * radius,
          "a half circle reaches passes two radii apart or more");
  return pi * radius + (spacing - 2.0 * radius);
}

Metre bulb_turn(Metre radius, Metre spacing) {
  const double r = radius.value(), w = spacing.value();
  require(r > 0.0 && w >= 0.0 && w <= 2.0 * r, "a bulb turn reaches passes up to two radii apart");
  return Metre{r * (3.0 * pi - 4.0 * std::asin((2.0 * r + w) / (4.0 * r)))};
}

Metre fishtail_turn(Metre radius, Metre spacing) {
  require(radius.value() > 0.0 && spacing.value() >= 0.0 && spacing <= 2.0 * radius,
          "a fishtail reaches passes up to two radii apart");
  return (pi + 2.0) * radius - spacing;
}

Hours turn_time(const Turning& turning, Metre spacing) { return one_turn(turning, spacing).hours; }

SwathTime time_along(const geo::SwathGround& ground, const SwathMachine& machine, double heading_deg) {
  require(machine.width.value() > 0.0 && machine.speed.value() > 0.0 && machine.turning.speed.value() > 0.0,
          "a machine has a width and speeds above 0");
  SwathTime t;
  t.heading_deg = heading_deg;
  t.sums = ground.measure(heading_deg);
  t.area_m2 = ground.area_m2();
  const OneTurn turn = one_turn(machine.turning, machine.width);
  const double between_m = t.sums.staggered_m + t.sums.between_blocks_m;
  t.working_m = t.sums.headland_m + t.sums.interior_m;
  t.turning_m = t.sums.turns * turn.metres + between_m;
  t.hours = driven(t.working_m, machine.speed) + t.sums.turns * turn.hours +
            driven(between_m, machine.turning.speed) +
            Hours{t.sums.corners * machine.turning.corner_s / seconds_per_hour};
  const double ha_per_hour = machine.speed.value() * machine.width.value() / 10.0;
  if (t.hours.value() > 0.0)
    t.field_efficiency = t.area_m2 / square_metres_per_ha / (ha_per_hour * t.hours.value());
  return t;
}

SwathTime best_swaths(const geo::SwathGround& ground, const SwathMachine& machine) {
  std::vector<double> headings = ground.edge_headings();
  headings.resize(std::min(headings.size(), edges_tried));
  require(!headings.empty(), "a field has edges");
  SwathTime best = time_along(ground, machine, headings.front());
  const auto try_heading = [&](double heading) {
    const SwathTime other = time_along(ground, machine, std::fmod(heading + 180.0, 180.0));
    if (other.hours.value() < best.hours.value() * (1.0 - 1e-9)) best = other;
  };
  for (std::size_t k = 1; k < headings.size(); ++k) try_heading(headings[k]);
  for (double step = first_step_deg; step >= last_step_deg; step /= 2.0) {
    const double middle = best.heading_deg;
    try_heading(middle - step);
    try_heading(middle + step);
  }
  return best;
}

}  // namespace aftercut::machinery
