#pragma once
// Passes of a machine laid on a field's true outline: some rounds along the edge, then straight passes
// within, grouped into blocks where a hole or a bend of the outline splits them. Lengths in metres of a local
// plane (true to 1e-5 within 50 km).

#include <memory>
#include <vector>

#include "aftercut/geo/shape.hpp"
#include "aftercut/geo/swath_sums.hpp"

namespace aftercut::geo {

/// One straight pass, in the order of driving.
struct Pass {
  Point from, to;  ///< WGS 84
  double length_m = 0.0;
  int block = 0;
};

struct Swaths {
  SwathSums sums;
  std::vector<Pass> passes;
  std::vector<Path> headland;  ///< rounds along the edge, WGS 84
};

/// What of a field its swaths work.
struct Coverage {
  double field_m2 = 0.0;
  double worked_m2 = 0.0;  ///< of the field
  double twice_m2 = 0.0;   ///< width x driven length less what it covers at least once
  [[nodiscard]] double worked_share() const { return worked_m2 / field_m2; }
  [[nodiscard]] double overlap_share() const { return twice_m2 / field_m2; }
};

/// A piece of ground made ready for trying headings with one width: projected, its rounds laid.
class SwathGround {
 public:
  /// `headland_rounds`: along the edge, so that there is room to turn. Throws InternalError on a shape
  /// without polygons, a width of 0 or less, negative rounds.
  SwathGround(const Shape& field, double width_m, int headland_rounds);
  ~SwathGround();
  SwathGround(SwathGround&&) noexcept;
  SwathGround& operator=(SwathGround&&) noexcept;

  /// Area in the plane [m2].
  [[nodiscard]] double area_m2() const;
  /// Headings parallel to the edges, 0 to 180, the one with the most metres of edge first, those with less
  /// than a quarter as many left out.
  [[nodiscard]] std::vector<double> edge_headings() const;
  /// Sums of straight passes on this heading, clockwise from north. Ground narrower than its headland has
  /// rounds only, or nothing.
  [[nodiscard]] SwathSums measure(double heading_deg) const;
  /// The same with the lines.
  [[nodiscard]] Swaths lay(double heading_deg) const;
  [[nodiscard]] Coverage coverage(const Swaths& swaths) const;

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

}  // namespace aftercut::geo
