#pragma once
// A field's straw as it is shown. Internal to the room.

#include "variation.hpp"

namespace aftercut::report {

struct StrawFigures {
  double load_kg_per_ha = 0.0, standing_kg_per_ha = 0.0, loose_kg_per_ha = 0.0;
  const char* from = "";  ///< "own row", "ticket", "map" or "entered"
};
StrawFigures straw_figures(const farm::Farm& farm, std::size_t field);

}  // namespace aftercut::report
