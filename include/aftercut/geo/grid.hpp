#pragma once
// A value on every cell of a grid: what raster.hpp reads and writes.

#include <string>
#include <vector>

namespace aftercut::geo {

/// North up. Lengths are in the units of its reference system.
struct Grid {
  std::string reference_system;  ///< as well-known text
  std::string unit;              ///< of the values, where the file states it
  double left = 0.0, top = 0.0;  ///< corner of the north-western cell
  double cell_x = 1.0, cell_y = 1.0;
  int columns = 0, rows = 0;
  std::vector<double> values;  ///< [row][column], the northern row first; not-a-number: none
};

}  // namespace aftercut::geo
