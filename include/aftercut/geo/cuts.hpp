#pragma once
// A field cut into pieces: by the levees that cross it, or at the bends of its outline.

#include <vector>

#include "aftercut/geo/shape.hpp"

namespace aftercut::geo {

/// The pieces that the lines cut a field into, from the north to the south, then from the west. A line is
/// prolonged by `reach_m` at both ends, so that it may end a little short of the edge; one that still ends
/// inside cuts nothing. Pieces together cover the field. Throws InternalError on a shape without polygons.
std::vector<Shape> cut_along(const Shape& field, const std::vector<Path>& lines, double reach_m);

/// Where an outline bends inwards by at least `least_bend_deg`: each of the two edges there prolonged through
/// the field to its far side. Sharpest bend first, at most `most` lines.
std::vector<Path> cuts_at_bends(const Shape& field, double least_bend_deg, std::size_t most);

}  // namespace aftercut::geo
