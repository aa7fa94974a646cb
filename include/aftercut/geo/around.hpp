#pragma once
// The ground within a distance of something.

#include "aftercut/geo/shape.hpp"

namespace aftercut::geo {

/// All that is no farther than `reach` from the shape, the shape's own polygons included. Round corners are
/// drawn with eight strokes a quarter: nowhere more than 0.5 % of the reach short. In a local plane, as
/// distance(). Throws InternalError on a shape that is nowhere or a reach that is not above 0.
Shape around(const Shape& shape, Metre reach);

}  // namespace aftercut::geo
