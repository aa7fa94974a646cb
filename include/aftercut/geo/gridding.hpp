#pragma once
// Points made into cells, cells into outlines: on a plane around a farm, in metres.

#include <optional>
#include <vector>

#include "aftercut/geo/raster.hpp"

namespace aftercut::geo {

/// Square cells whose edges lie at whole multiples of the cell from the centre, so that frames of one centre
/// and cell fit into each other.
struct Frame {
  Point centre;  ///< of the plane (azimuthal equidistant), WGS 84
  double cell_m = 20.0;
  int west = 0, north = 0;  ///< corner of the north-western cell, in cells east and north of the centre
  int columns = 0, rows = 0;
  [[nodiscard]] std::size_t size() const {
    return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows);
  }
};

/// A centre for a plane: the middle of the shapes' box, to 0.001 degree.
Point plane_centre(const std::vector<Shape>& shapes);

/// The smallest frame that covers the shapes.
Frame frame_over(const std::vector<Shape>& shapes, Point centre, Metre cell);

/// A frame's values as a raster that knows where it lies.
Grid grid_of(const Frame& frame, std::vector<double> values);

/// A cell and the share of it that lies in a shape.
struct CellShare {
  std::size_t cell = 0;  ///< row * columns + column
  double share = 0.0;    ///< 0 to 1
};
/// The cells that a shape's polygons touch, by cell.
std::vector<CellShare> cells_in(const Frame& frame, const Shape& shape);

/// Mean of the samples within `reach` of the middle of each cell (GDAL's moving average); not-a-number where
/// there is none. Does not depend on the order of the samples beyond rounding.
std::vector<double> moving_mean(const Frame& frame, const std::vector<Sample>& samples, Metre reach);

/// Cells that hang together by their edges.
struct Patch {
  Shape outline;                   ///< cut off at the shape's boundary, WGS 84
  std::vector<std::size_t> cells;  ///< rising
};
/// The wanted cells as patches within a shape; parts outside it are cut off.
std::vector<Patch> patches(const Frame& frame, const std::vector<bool>& wanted, const Shape& within);

/// For each point the first shape that it lies in.
std::vector<std::optional<std::size_t>> holders(const std::vector<Point>& points,
                                                const std::vector<Shape>& shapes);

}  // namespace aftercut::geo
