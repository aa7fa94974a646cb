#pragma once
// Inside room geo: straight passes over polygons in a plane, driven along x and set side by side along y.

#include <vector>

#include "aftercut/geo/shape.hpp"

namespace aftercut::geo {

/// What one strip works in one piece: from `from` to `to` along x, its middle at y.
struct StripPiece {
  double y = 0.0, from = 0.0, to = 0.0;
  int strip = 0;
  int block = 0;  ///< pieces of neighbouring strips that meet one to one are of a block
};

/// Pieces strip by strip, with their blocks numbered from 0.
std::vector<StripPiece> group_into_blocks(std::vector<StripPiece> pieces);

/// A piece as it is driven.
struct Driven {
  Point from, to;
  int block = 0;
};

struct Drive {
  std::vector<Driven> passes;
  int turns = 0;
  double staggered_m = 0.0, between_blocks_m = 0.0;
};

/// Blocks one after the other, always the one whose corner is nearest; in a block to and fro.
Drive drive_order(const std::vector<StripPiece>& pieces);

}  // namespace aftercut::geo
