#pragma once
// Time that a machine takes for a field of this outline: straight passes, rounds along the edge, turns, moves
// between blocks. Field efficiency comes out of it.

#include "aftercut/core/quantity.hpp"
#include "aftercut/geo/swath_sums.hpp"
#include "aftercut/machinery/machines.hpp"

namespace aftercut::geo {
class SwathGround;
}

namespace aftercut::machinery {

struct Turning {
  Metre radius{6.0};     ///< Source: TurningRadius (assumed)
  KmPerHour speed{5.0};  ///< in turns and on the way to the next block. Source: TurningSpeed (assumed)
  double direction_change_s =
      4.0;  ///< stop and change of direction; a fishtail has two. Source: TurningSpeed (assumed)
  double corner_s = 10.0;  ///< to get round a corner of a round along the edge. Source: CornerTime (assumed)
  Turn manner = Turn::loop;
};

/// Driven from the end of a pass to the start of one `spacing` beside it, which a loop can reach: pi r +
/// (spacing - 2 r). Source: BochtisVougioukas2008 (recalled; re-derived). Throws InternalError for a spacing
/// below 2 r.
Metre half_circle_turn(Metre radius, Metre spacing);
/// The same for a spacing below 2 r: r (3 pi - 4 asin((2 r + spacing) / (4 r))). Source:
/// BochtisVougioukas2008 (recalled; both limits checked).
Metre bulb_turn(Metre radius, Metre spacing);
/// Two quarter circles and the reverse between them: (pi + 2) r - spacing, for a spacing up to 2 r; geometry.
Metre fishtail_turn(Metre radius, Metre spacing);

/// One turn to the neighbouring pass [h], stops included.
Hours turn_time(const Turning& turning, Metre spacing);

struct SwathTime {
  double heading_deg = 0.0;
  Hours hours;
  double field_efficiency = 0.0;  ///< area over what width and speed would do in these hours
  double area_m2 = 0.0;
  double working_m = 0.0;  ///< in work: passes and rounds
  double turning_m = 0.0;  ///< all other driving
  geo::SwathSums sums;
};

struct SwathMachine {
  Metre width;
  KmPerHour speed;
  int headland_rounds = 2;
  Turning turning;
};

/// `ground` is made ready for this width and these rounds.
SwathTime time_along(const geo::SwathGround& ground, const SwathMachine& machine, double heading_deg);

/// The heading of the least hours: parallel to each of the longest edges first, then around the best by
/// halved angles, down to half a degree. Equal hours: the first tried.
SwathTime best_swaths(const geo::SwathGround& ground, const SwathMachine& machine);

}  // namespace aftercut::machinery
