#pragma once
// The passes of one machine on every field: hours by the true outline beside those of the typical field
// efficiency.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/geo/swaths.hpp"
#include "aftercut/machinery/field_time.hpp"

namespace aftercut::report {

struct FieldPasses {
  std::size_t field = 0;
  machinery::FieldTime time;
  Hours hours;              ///< stops counted
  double efficiency = 0.0;  ///< in these hours
  geo::Coverage coverage;
  std::vector<geo::Swaths> lines;  ///< of each piece
};

struct MachinePasses {
  std::size_t implement = 0;
  machinery::SwathMachine machine;
  std::vector<FieldPasses> fields;  ///< in the farm's order
};

/// The passes of one machine on every field. Throws InternalError on a field without an outline.
MachinePasses lay_passes(const farm::Farm& farm, std::size_t implement,
                         const machinery::SwathMachine& machine, int threads);

/// A table that fits 100 columns, the shape that loses most first, and what the shapes cost beside the
/// typical efficiency.
std::string passes_text(const farm::Farm& farm, const MachinePasses& passes);

/// Every pass and every round along the edge as a line (GeoJSON), with field, block and length.
Result<std::filesystem::path> write_passes(const farm::Farm& farm, const MachinePasses& passes,
                                           const std::filesystem::path& file);

}  // namespace aftercut::report
