// Rows of the implement table, alone in this file.
// Efficiency, speed, life and repair factors: D497.7 table 3 (recalled). Draft: D497.7 table 1 (recalled), F
// for medium and coarse soil too. Rotary power: D497.7 table 2 (recalled). Rows and numbers that are assumed
// are marked.
#include "aftercut/machinery/machines.hpp"

#include <algorithm>
#include <array>

namespace aftercut::machinery {
namespace {

/// Members in the order of KindRow.
const std::array<KindRow, 11>& rows() {
  static const std::array<KindRow, 11> table{{
      // kind, E, S low, typical, high, life h, RF1, RF2, by tools, A, B, C, depth, F2, F3, a kW, b kW/m, c
      // kWh/t, band %
      // Side-delivery rake.
      {"rake", 0.80, 6.5, 10.0, 13.0, 2500, 0.17, 1.4, false, 0, 0, 0, false, 1, 1, 0, 0.4, 0, 50},
      // Large rectangular baler; 1 kN/m of rolling resistance assumed. Field trials of dense bales took about
      // three
      // times this rotary energy (BalingEnergy2018).
      {"baler", 0.80, 6.5, 8.0, 13.0, 3000, 0.10, 1.8, false, 1000, 0, 0, false, 1, 1, 4.0, 0, 1.3, 35},
      // Drawn bale wagon: efficiency, speeds and 3 kN/m of rolling resistance assumed; repair row "wagon"
      // (recalled).
      {"bale_wagon", 0.80, 6.0, 8.0, 9.0, 3000, 0.19, 1.3, false, 3000, 0, 0, false, 1, 1, 0, 0, 0, 50},
      // Flail chopper: stalk chopper for time and repairs, flail mower for power.
      {"chopper", 0.80, 6.5, 8.0, 11.5, 1200, 0.28, 1.4, false, 0, 0, 0, false, 1, 1, 0, 10.0, 0, 40},
      // Disk mower: rotary mower for time and repairs, disk mower for power.
      {"mower", 0.80, 8.0, 11.0, 19.0, 2000, 0.44, 2.0, false, 0, 0, 0, false, 1, 1, 0, 5.0, 0, 30},
      // Tandem disk, primary tillage.
      {"disk", 0.80, 6.5, 10.0, 11.0, 2000, 0.18, 1.7, false, 309, 16.0, 0, true, 0.88, 0.78, 0, 0, 0, 50},
      // Cage roller in shallow water: all assumed; 3.5 kN/m, repairs of a roller-packer.
      {"cage_roller", 0.75, 5.0, 7.0, 9.0, 2000, 0.16, 1.3, false, 3500, 0, 0, false, 1, 1, 0, 0, 0, 50},
      // Chisel plow with 5 cm straight points.
      {"chisel", 0.85, 6.5, 8.0, 10.5, 2000, 0.28, 1.4, true, 91, 5.4, 0, true, 0.85, 0.65, 0, 0, 0, 50},
      // Land plane: draft recalled; efficiency, speeds, life and repairs assumed.
      {"plane", 0.80, 6.0, 7.0, 9.0, 2000, 0.16, 1.3, false, 8000, 0, 0, false, 1, 1, 0, 0, 0, 45},
      // Grooved roller: roller-packer row.
      {"grooved_roller", 0.85, 7.0, 10.0, 12.0, 2000, 0.16, 1.3, false, 600, 0, 0, false, 1, 1, 0, 0, 0, 50},
      // Drip torch carried along the edge: all assumed; no draft, no power.
      {"torch", 0.70, 2.0, 4.0, 6.0, 2000, 0.20, 1.0, false, 0, 0, 0, false, 1, 1, 0, 0, 0, 50, false},
  }};
  return table;
}

}  // namespace

const KindRow* row_of(const std::string& kind) {
  const auto at =
      std::find_if(rows().begin(), rows().end(), [&](const KindRow& row) { return row.kind == kind; });
  return at == rows().end() ? nullptr : &*at;
}

std::vector<std::string> known_kinds() {
  std::vector<std::string> kinds;
  for (const KindRow& row : rows()) kinds.push_back(row.kind);
  return kinds;
}

}  // namespace aftercut::machinery
