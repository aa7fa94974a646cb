#pragma once
// Inside room geo: shapes as GEOS geometries, in a plane of the caller's choice.

#include <functional>
#include <memory>
#include <numbers>

#include <geodesic.h>
#include <geos_c.h>

#include "aftercut/geo/shape.hpp"

namespace aftercut::geo {

/// One GEOS context; its geometries must not outlive it.
class Geos {
 public:
  Geos();
  ~Geos();
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;
  [[nodiscard]] GEOSContextHandle_t handle() const { return handle_; }

 private:
  GEOSContextHandle_t handle_;
};

struct GeometryDeleter {
  GEOSContextHandle_t handle;
  void operator()(GEOSGeometry* g) const { GEOSGeom_destroy_r(handle, g); }
};
using Geometry = std::unique_ptr<GEOSGeometry, GeometryDeleter>;

Geometry own(const Geos& geos, GEOSGeometry* g);

/// Smallest box around a shape; x0 is not-a-number when any coordinate is not finite.
struct Extent {
  double x0, x1, y0, y1;
};
Extent extent_of(const Shape& shape);

/// Moves a longitude and latitude to the plane.
using ToPlane = std::function<Point(Point)>;

inline constexpr double radian_per_degree = std::numbers::pi / 180.0;

/// The ellipsoid that positions are on.
geod_geodesic wgs84();

/// Azimuthal equidistant: true distance and direction from the centre. Off it, lengths are too long by up to
/// (distance / earth radius)^2 / 6: 1e-5 at 50 km. Source: Snyder1987 (recalled).
ToPlane azimuthal_plane(Point centre);
/// From that plane back to longitude and latitude.
ToPlane back_from_azimuthal_plane(Point centre);

/// Degrees taken as a plane: x longitude, y latitude.
Point degrees_as_plane(Point p);

/// Distance in a plane.
double apart(Point a, Point b);

/// The middle of a shape's extent.
Point centre_of(const Shape& shape);

/// The polygons of a shape moved to a plane, or back from it; its lines and points stay as they are.
Shape in_plane(Shape shape, const ToPlane& plane);

/// All polygons as one multipolygon; rings with fewer than three different corners are left out.
Geometry polygons_of(const Geos& geos, const Shape& shape, const ToPlane& to_plane = degrees_as_plane);

/// Polygons, lines and points as one collection.
Geometry everything_of(const Geos& geos, const Shape& shape, const ToPlane& to_plane = degrees_as_plane);

/// The points of a line or ring.
Path path_from(const Geos& geos, const GEOSGeometry* line);

/// The point of `part` that is nearest to `other`; neither is empty.
Point nearest_point_on(const Geos& geos, const GEOSGeometry* part, const GEOSGeometry* other);

/// The polygons of any geometry, collections included; lines and points are left out.
std::vector<Polygon> polygons_from(const Geos& geos, const GEOSGeometry* g);

/// True when a ring has at least three different corners.
bool has_area(const Path& ring);

/// The same area, valid: as it is, or by GEOS MakeValid (structure method).
Geometry made_valid(const Geos& geos, Geometry g);

}  // namespace aftercut::geo
