#pragma once
// Time that a machine takes for a whole field: the checks between its levees one after the other, and a bent
// one in two blocks where that is faster.

#include <vector>

#include "aftercut/geo/shape.hpp"
#include "aftercut/machinery/swath_time.hpp"

namespace aftercut::machinery {

struct FieldPiece {
  geo::Shape outline;
  SwathTime time;
};

struct FieldTime {
  std::vector<FieldPiece> pieces;  ///< in the order of driving
  Hours hours;                     ///< all pieces and the ways between them, stops left out
  double field_efficiency = 0.0;   ///< area over what width and speed would do in these hours
  double working_m = 0.0, turning_m = 0.0;
  int passes = 0;
  int checks = 0;  ///< between levees; pieces beyond them are blocks of bent checks
};

/// Time to go on to the next piece, over a levee or round a bend. Source: LeveeCrossing (assumed)
inline constexpr Hours to_next_piece{2.0 / 60.0};

/// Throws InternalError on a shape without polygons.
FieldTime time_on_field(const geo::Shape& field, const std::vector<geo::Path>& levees,
                        const SwathMachine& machine);

}  // namespace aftercut::machinery
