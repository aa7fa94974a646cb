#include "aftercut/geo/around.hpp"

#include "aftercut/core/require.hpp"
#include "plane.hpp"

namespace aftercut::geo {
namespace {

constexpr int strokes_a_quarter = 8;

}  // namespace

Shape around(const Shape& shape, Metre reach) {
  require(reach > Metre{0.0}, "a distance around something is above 0");
  const Geos geos;
  const Point centre = centre_of(shape);
  const Geometry all = everything_of(geos, shape, azimuthal_plane(centre));
  require(!GEOSisEmpty_r(geos.handle(), all.get()), "there is ground around a shape that is somewhere");
  const Geometry near = own(geos, GEOSBuffer_r(geos.handle(), all.get(), reach.value(), strokes_a_quarter));
  return in_plane({polygons_from(geos, near.get()), {}, {}}, back_from_azimuthal_plane(centre));
}

}  // namespace aftercut::geo
