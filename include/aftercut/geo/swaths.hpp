#pragma once
// Passes of a machine laid on a field's true outline: some rounds along the edge, then straight passes
// within, grouped into blocks where a hole or a bend of the outline splits them. Lengths in metres of a local
// plane (true to 1e-5 within 50 km).

#include <memory>
#include <vector>

#include "aftercut/geo/shape.hpp"

namespace aftercut::geo {

struct SwathWish {
  double width_m = 6.0;
  int headland_rounds = 2;   ///< along the edge, so that there is room to turn
  double heading_deg = 0.0;  ///< of the straight passes, clockwise from north
};

/// One straight pass, in the order of driving.
struct Pass {
  Point from, to;  ///< WGS 84
  double length_m = 0.0;
  int block = 0;
};

struct Swaths {
  std::vector<Pass> passes;
  std::vector<Path> headland;  ///< rounds along the edge, WGS 84
  double headland_m = 0.0;
  double interior_m = 0.0;   ///< all passes together
  int blocks = 0;            ///< groups of passes that lie side by side
  int turns = 0;             ///< from a pass to its neighbour
  double staggered_m = 0.0;  ///< driven at turns because neighbouring passes end at different heights
  double between_blocks_m = 0.0;
};

/// What of a field its swaths work.
struct Coverage {
  double field_m2 = 0.0;
  double worked_m2 = 0.0;  ///< of the field
  double twice_m2 = 0.0;   ///< width x driven length less what it covers at least once
  [[nodiscard]] double worked_share() const { return worked_m2 / field_m2; }
  [[nodiscard]] double overlap_share() const { return twice_m2 / field_m2; }
};

/// A field made ready for trying headings: projected once.
class SwathGround {
 public:
  /// Throws InternalError on a shape without polygons.
  explicit SwathGround(const Shape& field);
  ~SwathGround();
  SwathGround(SwathGround&&) noexcept;
  SwathGround& operator=(SwathGround&&) noexcept;

  /// Area in the plane [m2].
  [[nodiscard]] double area_m2() const;
  /// Headings parallel to the edges, 0 to 180, the one with the most metres of edge first.
  [[nodiscard]] std::vector<double> edge_headings() const;
  /// Throws InternalError on a width of 0 or less. A field narrower than its headland has rounds only, or
  /// nothing.
  [[nodiscard]] Swaths lay(const SwathWish& wish) const;
  [[nodiscard]] Coverage coverage(const Swaths& swaths, double width_m) const;

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

}  // namespace aftercut::geo
